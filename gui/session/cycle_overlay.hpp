#pragma once

#include "analysis/verification/assessment.hpp"
#include "analysis/verification/ladder.hpp"
#include "gui/session/live_feed.hpp"
#include "gui/session/run_marks.hpp"

#include <string>
#include <vector>

namespace zeroline::session {

/// One cycle laid over the others: times from the onset of its insufflation, pressures with the zero subtracted.
struct OverlaidCycle {
    int index = 0;
    bool judged = false;
    std::vector<LiveSample> samples;
};

/// All automatic cycles of a preset on one axis, and their median.
struct CycleOverlay {
    std::vector<OverlaidCycle> cycles;
    std::vector<LiveSample> median; ///< of the judged cycles at each moment where most of them have a sample
};

/// The middle of the judged cycles at each moment, in steps of 20 ms, where most of them have a sample.
[[nodiscard]] std::vector<LiveSample> median_curve(const std::vector<OverlaidCycle>& cycles);

/// Cycles that were held by hand have no common length and are left out.
[[nodiscard]] CycleOverlay overlay(const trace::Trace& trace, const verification::Assessment& assessment,
                                   const std::string& preset);

/// Those of `bands` that lie in the first judged cycle of the preset, from its onset.
[[nodiscard]] std::vector<PhaseBand> overlaid_bands(const std::vector<PhaseBand>& bands,
                                                    const verification::Assessment& assessment,
                                                    const std::string& preset);

} // namespace zeroline::session
