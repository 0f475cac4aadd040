#pragma once

#include "gui/print/dates_on_paper.hpp"
#include "gui/print/verdict_cell.hpp"

namespace zeroline::print {

// The parts of the printed record, from above.

/// The text, or "not given" where there is none.
[[nodiscard]] inline QString or_not_given(const QString& text) { return text.isEmpty() ? "not given" : text; }

/// Organisation, title, number, square code.
[[nodiscard]] PageBlocks title_part(const PrintedRecord& record);
/// What was not tested; the verdict in large words with its sign and colour, and why.
[[nodiscard]] PageBlocks verdict_part(const PrintedRecord& record);
/// Unit, order, prescription, customer, place, day, people.
[[nodiscard]] PageBlocks identity_part(const PrintedRecord& record, const Numerals& numerals);
/// The four numbers of each preset with limits, uncertainty, ratio, rule and verdict.
[[nodiscard]] PageBlocks numbers_part(const PrintedRecord& record);
/// Why the verdict is as it is, and what the trace looks like.
[[nodiscard]] PageBlocks findings_part(const PrintedRecord& record);
/// The record as found beside this one, worst value by worst value; or the record that this one was calculated again
/// from.
[[nodiscard]] PageBlocks earlier_part(const PrintedRecord& record);
/// Reviews and corrections that were added later.
[[nodiscard]] PageBlocks corrections_part(const PrintedRecord& record);
/// Instrument, calibration, zero, sampling, environment, hose.
[[nodiscard]] PageBlock circumstances_part(const PrintedRecord& record, const Numerals& numerals, int columns);
/// Confirmations, checklist, settings found and left.
[[nodiscard]] PageBlocks hand_back_part(const PrintedRecord& record, const Numerals& numerals);
/// Who stands for it, or room to sign by hand; what it does not claim.
[[nodiscard]] PageBlocks signatures_part(const PrintedRecord& record);

} // namespace zeroline::print
