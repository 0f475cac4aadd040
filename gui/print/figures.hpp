#pragma once

#include "gui/print/piece.hpp"
#include "gui/print/saved_record.hpp"
#include "gui/print/wording.hpp"
#include "gui/session/trace_history.hpp"

#include <memory>

namespace zeroline::print {

/// What a figure is drawn from. Shared by the pieces that are drawn later.
struct Pictured {
    std::shared_ptr<const SavedRecord> record;
    std::shared_ptr<const session::TraceHistory> trace; ///< the reading of the open port taken off
    Numerals numerals;
};
[[nodiscard]] Pictured pictured(std::shared_ptr<const SavedRecord> record, const Numerals& numerals);

/// The whole trace with spans, cycle numbers, the band of each phase, holes hatched.
[[nodiscard]] Piece trace_figure(const Pictured& pictured, double height_mm);

/// The judged cycles of a preset laid over one another, with their median and the bands of the phases.
[[nodiscard]] Piece overlay_figure(const Pictured& pictured, const QString& preset, double height_mm);

} // namespace zeroline::print
