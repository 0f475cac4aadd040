#pragma once

#include "analysis/verification/leak_test.hpp"
#include "gui/session/live_feed.hpp"

#include <optional>
#include <string>
#include <vector>

namespace zeroline::session {

using verification::LeakRate;

/// The pressures of a leak test, one after the other, cmH2O.
inline constexpr double kLeakTargets_cmH2O[] = {40.0, -40.0};

/// Waits for a pressure that somebody makes with a syringe and shuts in, and follows it for as long as counts.
class LeakReading {
public:
    /// `target_cmH2O`: about what is asked for; its sign counts. `zero_cmH2O` is subtracted from every sample.
    LeakReading(double target_cmH2O, double zero_cmH2O) : target_cmH2O_(target_cmH2O), zero_cmH2O_(zero_cmH2O) {}

    /// The rate (verification::leak_rate()), once the time is over; sooner where half of the pressure is gone before.
    std::optional<LeakRate> push(const LiveSample& sample);
    [[nodiscard]] bool follows() const noexcept { return !time_s_.empty(); }       ///< the pressure is there
    [[nodiscard]] double progress() const;                                         ///< share of the time, 0 to 1
    [[nodiscard]] double pressure_cmH2O() const noexcept { return newest_cmH2O_; } ///< zero subtracted
    [[nodiscard]] double from_s() const { return time_s_.front(); } ///< since when it is followed; follows() only

private:
    double target_cmH2O_, zero_cmH2O_;
    double newest_cmH2O_ = 0.0;
    double most_cmH2O_ = 0.0;                     ///< magnitude
    std::vector<double> time_s_, pressure_cmH2O_; ///< since the pressure stopped growing; zero subtracted
};

/// "Press to about +40 cmH2O with the syringe, ..."
[[nodiscard]] std::string leak_asked(double target_cmH2O);
/// "from +40.2 cmH2O: 0.08 cmH2O/s lost (U 0.01) over 7.0 s, 3 mL/min: within the limit of 1 cmH2O/s".
[[nodiscard]] std::string leak_told(const LeakRate& rate, double limit_cmH2O_s);

} // namespace zeroline::session
