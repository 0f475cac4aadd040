#pragma once

#include "analysis/signal/measurement.hpp"
#include "analysis/verification/run_log.hpp"

#include <span>
#include <vector>

namespace zeroline::verification {

/// How fast a closed set-up loses its pressure.
struct LeakRate {
    double from_cmH2O = 0.0;          ///< pressure at the beginning of what was looked at
    double over_s = 0.0;              ///< how long it was looked at
    double loss_cmH2O_s = 0.0;        ///< towards zero; negative: it moves away from it
    double uncertainty_cmH2O_s = 0.0; ///< expanded, k = 2, of the line through the samples; 0: not known

    /// Gas that this is, at the pressure of the room, in a hose of 1.8 m and 22 mm with a gas that neither warms nor
    /// cools: 0.66 mL/cmH2O (volume over atmospheric pressure; the hose wall adds to it).
    [[nodiscard]] double mL_min() const noexcept { return 0.66 * loss_cmH2O_s * 60.0; }
};

/// So long a pressure that was shut in is followed; the first seconds do not count: gas that was pressed quickly cools
/// back (common practice, no source).
inline constexpr double kLeakFollowed_s = 10.0;
inline constexpr double kLeakIgnored_s = 3.0;

/// Of samples since the pressure was shut in, zero subtracted: a straight line through what counts. Where less than
/// kLeakFollowed_s is there (the pressure was gone before), from beginning to end. Times and pressures are as many, one
/// at least.
[[nodiscard]] LeakRate leak_rate(std::span<const double> time_s, std::span<const double> pressure_cmH2O);

/// Of the leak-test spans of a run: the last above zero, the last below, as far as there are any. `samples`: the whole
/// trace, zero subtracted.
[[nodiscard]] std::vector<LeakRate> leak_rates(const signal::Samples& samples, const std::vector<Span>& spans);

} // namespace zeroline::verification
