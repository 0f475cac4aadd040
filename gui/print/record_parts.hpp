#pragma once

#include "gui/print/wording.hpp"

namespace zeroline::print {

// The parts of the printed record, from above.

/// The text, or "not given" where there is none.
[[nodiscard]] inline QString or_not_given(const QString& text) { return text.isEmpty() ? "not given" : text; }

/// Organisation, title, number, square code.
[[nodiscard]] Pieces title_part(const SavedRecord& record);
/// What was not tested; the verdict in large words with its sign and colour, and why.
[[nodiscard]] Pieces verdict_part(const SavedRecord& record);
/// Unit, order, prescription, customer, place, day, people.
[[nodiscard]] Pieces identity_part(const SavedRecord& record, const Numerals& numerals);
/// The four numbers of each preset with limits, uncertainty, ratio, rule and verdict.
[[nodiscard]] Pieces numbers_part(const SavedRecord& record);
/// Why the verdict is as it is, and what the trace looks like.
[[nodiscard]] Pieces findings_part(const SavedRecord& record);
/// The record as found beside this one, worst value by worst value; or the record that this one was calculated again
/// from.
[[nodiscard]] Pieces earlier_part(const SavedRecord& record);
/// Reviews and corrections that were added later.
[[nodiscard]] Pieces corrections_part(const SavedRecord& record);
/// Instrument, calibration, zero, sampling, environment, hose.
[[nodiscard]] Piece circumstances_part(const SavedRecord& record, const Numerals& numerals, int columns);
/// Confirmations, checklist, settings found and left.
[[nodiscard]] Pieces hand_back_part(const SavedRecord& record, const Numerals& numerals);
/// Who stands for it, or room to sign by hand; what it does not claim.
[[nodiscard]] Pieces signatures_part(const SavedRecord& record);

} // namespace zeroline::print
