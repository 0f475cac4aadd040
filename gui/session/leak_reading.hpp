#pragma once

#include "gui/session/live_feed.hpp"

#include <optional>
#include <vector>

namespace zeroline::session {

/// How fast a closed set-up loses its pressure.
struct LeakRate {
    double from_cmH2O = 0.0;          ///< pressure at the beginning of what was looked at
    double over_s = 0.0;              ///< how long it was looked at
    double loss_cmH2O_s = 0.0;        ///< towards zero; negative: it moves away from it
    double uncertainty_cmH2O_s = 0.0; ///< expanded, k = 2, of the line through the samples

    /// Gas that this is, at the pressure of the room, in a hose of 1.8 m and 22 mm with a gas that neither warms nor
    /// cools: 0.66 mL/cmH2O (volume over atmospheric pressure; the hose wall adds to it).
    [[nodiscard]] double mL_min() const noexcept { return 0.66 * loss_cmH2O_s * 60.0; }
};

/// Waits for a pressure that somebody makes with a syringe and shuts in, and follows it for 10 s. The first 3 s do not
/// count: gas that was pressed quickly cools back (common practice, no source).
class LeakReading {
public:
    /// `target_cmH2O`: about what is asked for; its sign counts. `zero_cmH2O` is subtracted from every sample.
    LeakReading(double target_cmH2O, double zero_cmH2O) : target_cmH2O_(target_cmH2O), zero_cmH2O_(zero_cmH2O) {}

    /// The rate, once 10 s are over; sooner where half of the pressure is gone before.
    std::optional<LeakRate> push(const LiveSample& sample);
    [[nodiscard]] bool follows() const noexcept { return !samples_.empty(); }      ///< the pressure is there
    [[nodiscard]] double progress() const;                                         ///< share of the 10 s, 0 to 1
    [[nodiscard]] double pressure_cmH2O() const noexcept { return newest_cmH2O_; } ///< zero subtracted

private:
    [[nodiscard]] std::optional<LeakRate> rate() const;

    double target_cmH2O_, zero_cmH2O_;
    double newest_cmH2O_ = 0.0;
    double most_cmH2O_ = 0.0;         ///< magnitude
    std::vector<LiveSample> samples_; ///< since the pressure stopped growing; zero subtracted
};

} // namespace zeroline::session
