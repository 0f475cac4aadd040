#include "gui/session/soft_sound.hpp"

#include <QProcess>
#include <QStandardPaths>
#include <QtEndian>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace zeroline::session {

namespace {

constexpr int kRate_hz = 22050;
constexpr double kLoudness = 0.12; ///< of full scale: soft
constexpr double kRise_s = 0.03, kFade_s = 0.12;

struct Note {
    double frequency_hz, length_s;
};

std::vector<Note> notes_of(SoftSound::Kind kind)
{
    switch (kind) {
    case SoftSound::Kind::step:
        return {{523.25, 0.16}, {659.26, 0.24}};
    case SoftSound::Kind::seen:
        return {{659.26, 0.18}};
    case SoftSound::Kind::attention:
        break;
    }
    return {{392.00, 0.30}, {329.63, 0.40}};
}

double envelope(double at_s, double length_s) { return std::min({1.0, at_s / kRise_s, (length_s - at_s) / kFade_s}); }

void append_number(QByteArray& bytes, quint32 value, int size)
{
    const quint32 little = qToLittleEndian(value);
    bytes.append(reinterpret_cast<const char*>(&little), size);
}

QByteArray wave_header(quint32 data_bytes)
{
    QByteArray header("RIFF");
    append_number(header, 36 + data_bytes, 4);
    header += "WAVEfmt ";
    append_number(header, 16, 4); // length of the format part
    append_number(header, 1, 2);  // PCM
    append_number(header, 1, 2);  // one channel
    append_number(header, kRate_hz, 4);
    append_number(header, 2 * kRate_hz, 4); // bytes a second
    append_number(header, 2, 2);            // bytes a frame
    append_number(header, 16, 2);           // bits a sample
    header += "data";
    append_number(header, data_bytes, 4);
    return header;
}

QString find_player()
{
    for (const char* name : {"pw-play", "paplay", "aplay"}) {
        const auto path = QStandardPaths::findExecutable(QLatin1String(name));
        if (!path.isEmpty()) {
            return path;
        }
    }
    return {};
}

} // namespace

SoftSound::SoftSound(QObject* parent) : QObject(parent), player_(find_player()), process_(new QProcess(this)) {}

SoftSound::~SoftSound()
{
    process_->disconnect(this);
    process_->kill();
    process_->waitForFinished(200);
}

QByteArray SoftSound::wave(Kind kind)
{
    QByteArray data;
    for (const auto& note : notes_of(kind)) {
        const auto samples = static_cast<int>(note.length_s * kRate_hz);
        for (int i = 0; i < samples; ++i) {
            const double at_s = static_cast<double>(i) / kRate_hz;
            const double value =
                kLoudness * envelope(at_s, note.length_s) * std::sin(2.0 * std::numbers::pi * note.frequency_hz * at_s);
            append_number(data, static_cast<quint16>(static_cast<qint16>(std::lround(32767.0 * value))), 2);
        }
    }
    return wave_header(static_cast<quint32>(data.size())) + data;
}

void SoftSound::play(Kind kind)
{
    if (muted_ || player_.isEmpty() || process_->state() != QProcess::NotRunning) {
        return;
    }
    const bool alsa = player_.endsWith(QLatin1String("/aplay"));
    process_->start(player_, {alsa ? QStringLiteral("-q") : QStringLiteral("/dev/stdin")});
    process_->write(wave(kind));
    process_->closeWriteChannel();
}

} // namespace zeroline::session
