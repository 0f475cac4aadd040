#pragma once

#include "analysis/verification/work_order.hpp"

namespace zeroline::verification {

/// What a prescribed series comes to on the clock.
struct TreatmentPlan {
    double cycle_s = 0.0;   ///< one breath: the phases of its sequence
    double series_s = 0.0;  ///< one series, its rest left out
    double cycling_s = 0.0; ///< longest stretch without a rest: all of it where no rest is prescribed
    double whole_s = 0.0;   ///< first breath to the last one, rests between the series counted in
    double rest_s = 0.0;    ///< between two series
    int count = 1;          ///< series
};

/// Without a prescribed series: one cycle, and nothing that could be too long.
[[nodiscard]] TreatmentPlan treatment_plan(const Preset& preset);

/// Cycling without a rest stays under five minutes; a rest lasts 20 to 30 s (both common practice, no source).
inline constexpr double kLongestCycling_s = 300.0;
inline constexpr double kShortestRest_s = 20.0;

} // namespace zeroline::verification
