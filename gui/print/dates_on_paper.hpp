#pragma once

#include "gui/print/printed_record.hpp"

#include <QString>

namespace zeroline::print {

/// "2026-11-25T09:12:04+01:00" to "2026-11-25 09:12 +01:00"; a day stays as it is.
[[nodiscard]] QString moment_text(const QString& rfc3339);
/// The day of the next check: so many months after the day of the run, the last day of the month where that day does
/// not exist. Empty where the record or the bench file gives none.
[[nodiscard]] QString next_due(const PrintedRecord& record);

} // namespace zeroline::print
