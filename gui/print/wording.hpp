#pragma once

#include "gui/print/saved_record.hpp"
#include "gui/print/table.hpp"

namespace zeroline::print {

using session::Numerals;
using session::with_blanks;

/// The colours of a tone (Okabe and Ito's palette, safe for the colour-blind); sign and word stand beside them, each
/// alone is enough.
struct Colours {
    QColor ground, ink;
};
[[nodiscard]] Colours colours_of(session::Tone tone);
[[nodiscard]] Cell verdict_cell(const QString& sign, const QString& word, session::Tone tone);

/// "2026-11-25T09:12:04+01:00" to "2026-11-25 09:12 +01:00"; a day stays as it is.
[[nodiscard]] QString moment_text(const QString& rfc3339);
/// The day of the next check: so many months after the day of the run, the last day of the month where that day does
/// not exist. Empty where the record or the bench file gives none.
[[nodiscard]] QString next_due(const SavedRecord& record);

} // namespace zeroline::print
