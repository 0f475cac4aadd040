#pragma once

#include "analysis/verification/assessment.hpp"
#include "gui/session/live_feed.hpp"

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

/// Cycles that were held by hand have no common length and are left out.
[[nodiscard]] CycleOverlay overlay(const trace::Trace& trace, const verification::Assessment& assessment,
                                   const std::string& preset);

} // namespace zeroline::session
