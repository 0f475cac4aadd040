#include "gui/print/wording.hpp"

#include <QDate>

#include <algorithm>

namespace zeroline::print {

using session::Tone;

namespace {

const QColor kPassGround(0x00, 0x9E, 0x73);
const QColor kConditionalGround(0xE6, 0x9F, 0x00);
const QColor kFailGround(0xD5, 0x5E, 0x00);
const QColor kUnseenGround(0xDD, 0xDD, 0xDD);
const QColor kCriticalGround(0x7D, 0x37, 0x00);

} // namespace

Colours colours_of(Tone tone)
{
    switch (tone) {
    case Tone::none:
        return {Qt::white, Qt::black};
    case Tone::pass:
        return {kPassGround, Qt::black};
    case Tone::conditional:
        return {kConditionalGround, Qt::black};
    case Tone::incomplete:
        return {kUnseenGround, Qt::black};
    case Tone::fail:
        return {kFailGround, Qt::black};
    case Tone::critical:
        break;
    }
    return {kCriticalGround, Qt::white};
}

Cell verdict_cell(const QString& sign, const QString& word, Tone tone)
{
    const auto colours = colours_of(tone);
    return {.text = word,
            .bold = tone != Tone::none && tone != Tone::pass,
            .sign = sign,
            .ground = colours.ground,
            .sign_colour = colours.ink};
}

QString moment_text(const QString& rfc3339)
{
    constexpr int kMinutes = 16; // "2026-11-25T09:12"
    if (rfc3339.size() <= kMinutes) {
        return rfc3339;
    }
    const auto zone = std::max({rfc3339.lastIndexOf('+'), rfc3339.lastIndexOf('Z'), rfc3339.indexOf('-', kMinutes)});
    return rfc3339.left(kMinutes).replace('T', ' ') + (zone > 0 ? " " + rfc3339.mid(zone) : "");
}

QString next_due(const SavedRecord& record)
{
    // A unit that is not released is checked again before anything falls due.
    if (record.result.outcome == metrology::Outcome::fail || record.result.critical) {
        return {};
    }
    const auto stated = record.text("/next_due");
    if (!stated.isEmpty()) {
        return stated;
    }
    const auto day = QDate::fromString(record.text("/run/began").left(10), Qt::ISODate);
    return record.interval_months && day.isValid() ? day.addMonths(*record.interval_months).toString(Qt::ISODate)
                                                   : QString();
}

} // namespace zeroline::print
