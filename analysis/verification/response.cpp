#include "analysis/verification/response.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

constexpr double kLn9 = 2.1972245773362196; // 10 % to 90 % of an exponential, in time constants
constexpr double kLagsLookedThrough = 12.0; // from the edge's middle on; what hides later is no peak of this edge
constexpr double kShortest_s = 0.5;

} // namespace

double lag_s(double response_ms) noexcept { return 1e-3 * response_ms / kLn9; }

double hidden_peak_cmH2O(const signal::Samples& samples, const signal::Phase& phase, double lag_s)
{
    const std::size_t last = std::min(phase.last, samples.size());
    if (!phase.peak_cmH2O || lag_s <= 0.0 || phase.first + 2 >= last)
        return 0.0;
    const auto& time = samples.time_s;
    const double interval_s = (time[last - 1] - time[phase.first]) / static_cast<double>(last - 1 - phase.first);
    // The slope over as much as the lag: its noise is then no larger than that of a reading.
    const auto reach = static_cast<std::size_t>(std::max(1.0, std::round(0.5 * lag_s / interval_s)));
    const double until_s = time[phase.first] + std::max(kShortest_s, kLagsLookedThrough * lag_s);
    const double sign = *phase.peak_cmH2O < 0.0 ? -1.0 : 1.0;
    double highest = sign * *phase.peak_cmH2O;
    for (std::size_t i = phase.first + reach; i + reach < last && time[i] < until_s; ++i) {
        const double slope = (samples.pressure_cmH2O[i + reach] - samples.pressure_cmH2O[i - reach]) /
                             (time[i + reach] - time[i - reach]);
        highest = std::max(highest, sign * (samples.pressure_cmH2O[i] + lag_s * slope));
    }
    return highest - sign * *phase.peak_cmH2O;
}

} // namespace zeroline::verification
