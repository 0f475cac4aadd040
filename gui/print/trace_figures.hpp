#pragma once

#include "gui/print/page_block.hpp"
#include "gui/print/printed_record.hpp"
#include "gui/session/trace_history.hpp"

#include <memory>

namespace zeroline::print {

/// What a figure is drawn from. Shared by the blocks that are drawn later.
struct Pictured {
    std::shared_ptr<const PrintedRecord> record;
    std::shared_ptr<const session::TraceHistory> trace; ///< the reading of the open port taken off
    Numerals numerals;
};
[[nodiscard]] Pictured pictured(std::shared_ptr<const PrintedRecord> record, const Numerals& numerals);

/// The whole trace with spans, cycle numbers, the band of each phase, holes hatched.
[[nodiscard]] PageBlock trace_figure(const Pictured& pictured, double height_mm);

/// The judged cycles of a preset laid over one another, with their median and the bands of the phases.
[[nodiscard]] PageBlock overlay_figure(const Pictured& pictured, const QString& preset, double height_mm);

} // namespace zeroline::print
