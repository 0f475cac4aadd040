#include "gui/print/dates_on_paper.hpp"

#include <QDate>

#include <algorithm>

namespace zeroline::print {

QString moment_text(const QString& rfc3339)
{
    constexpr int kMinutes = 16; // "2026-11-25T09:12"
    if (rfc3339.size() <= kMinutes) {
        return rfc3339;
    }
    const auto zone = std::max({rfc3339.lastIndexOf('+'), rfc3339.lastIndexOf('Z'), rfc3339.indexOf('-', kMinutes)});
    return rfc3339.left(kMinutes).replace('T', ' ') + (zone > 0 ? " " + rfc3339.mid(zone) : "");
}

QString next_due(const PrintedRecord& record)
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
