#include "gui/session/leak_reading.hpp"

#include "analysis/metrology/drift.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::session {

namespace {

constexpr double kNearEnough = 0.6;  ///< share of what is asked for that counts as pressed
constexpr double kGrows_cmH2O = 0.3; ///< more than noise: somebody still presses
constexpr double kFollowed_s = 10.0;
constexpr double kIgnored_s = 3.0;
constexpr double kLost = 0.5; ///< share of the pressure that need not be waited for any longer

} // namespace

std::optional<LeakRate> LeakReading::push(const LiveSample& sample)
{
    newest_cmH2O_ = sample.pressure_cmH2O - zero_cmH2O_;
    const double along = newest_cmH2O_ * (target_cmH2O_ < 0.0 ? -1.0 : 1.0);
    if (samples_.empty() && along < kNearEnough * std::fabs(target_cmH2O_)) {
        return std::nullopt;
    }
    if (samples_.empty() || along > most_cmH2O_ + kGrows_cmH2O) {
        samples_.clear();
        most_cmH2O_ = along;
    }
    samples_.push_back({sample.time_s, newest_cmH2O_});
    const bool gone = along < kLost * most_cmH2O_;
    return gone || progress() >= 1.0 ? rate() : std::nullopt;
}

double LeakReading::progress() const
{
    return samples_.empty() ? 0.0 : std::min(1.0, (samples_.back().time_s - samples_.front().time_s) / kFollowed_s);
}

/// A straight line through what counts; where the pressure is gone before that, from its beginning to its end.
std::optional<LeakRate> LeakReading::rate() const
{
    const double sign = target_cmH2O_ < 0.0 ? -1.0 : 1.0;
    std::vector<double> time_s, along;
    for (const auto& sample : samples_) {
        if (sample.time_s - samples_.front().time_s >= kIgnored_s) {
            time_s.push_back(sample.time_s - samples_.front().time_s);
            along.push_back(sample.pressure_cmH2O * sign);
        }
    }
    const double over_s = samples_.back().time_s - samples_.front().time_s;
    const auto line = metrology::fit_line(time_s, along);
    if (over_s < kFollowed_s || !line) {
        const double lost = (samples_.front().pressure_cmH2O - samples_.back().pressure_cmH2O) * sign;
        return LeakRate{samples_.front().pressure_cmH2O, over_s, lost / std::max(over_s, 1e-3), 0.0};
    }
    return LeakRate{time_s.empty() ? 0.0 : along.front() * sign, over_s - kIgnored_s, -line->slope,
                    2.0 * line->slope_u};
}

} // namespace zeroline::session
