#pragma once

#include <QByteArray>
#include <QObject>

class QProcess;

namespace zeroline::session {

/// Soft tones for a run that nobody looks at: unlike a medical alarm, one or two notes that rise and fade.
///
/// No audio library is needed: the tone is computed and handed to whatever player the system has. Without one, or
/// without a sound card, it is silent.
class SoftSound : public QObject {
    Q_OBJECT
public:
    enum class Kind { step, seen, attention };

    explicit SoftSound(QObject* parent = nullptr);
    ~SoftSound() override;

    void set_muted(bool muted) { muted_ = muted; }
    [[nodiscard]] bool muted() const noexcept { return muted_; }
    /// A tone that still sounds is not disturbed: the new one is left out.
    void play(Kind kind);

    /// The tone as a WAV file (RIFF, PCM, 16 bit, mono).
    [[nodiscard]] static QByteArray wave(Kind kind);

private:
    QString player_;
    QProcess* process_;
    bool muted_ = false;
};

} // namespace zeroline::session
