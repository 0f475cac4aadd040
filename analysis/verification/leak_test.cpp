#include "analysis/verification/leak_test.hpp"

#include "analysis/metrology/drift.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace zeroline::verification {

namespace {

constexpr double kWhole = 0.95; ///< of the time: a clock that was fitted later may make it a little shorter

std::size_t index_of(std::span<const double> time_s, double at_s)
{
    return static_cast<std::size_t>(std::lower_bound(time_s.begin(), time_s.end(), at_s) - time_s.begin());
}

} // namespace

LeakRate leak_rate(std::span<const double> time_s, std::span<const double> pressure_cmH2O)
{
    const double sign = pressure_cmH2O.front() < 0.0 ? -1.0 : 1.0;
    const double over_s = time_s.back() - time_s.front();
    std::vector<double> since_s, along;
    for (std::size_t i = index_of(time_s, time_s.front() + kLeakIgnored_s); i < time_s.size(); ++i) {
        since_s.push_back(time_s[i] - time_s.front());
        along.push_back(pressure_cmH2O[i] * sign);
    }
    const auto line = metrology::fit_line(since_s, along);
    if (over_s < kWhole * kLeakFollowed_s || !line) {
        const double lost = (pressure_cmH2O.front() - pressure_cmH2O.back()) * sign;
        return {pressure_cmH2O.front(), over_s, lost / std::max(over_s, 1e-3), 0.0};
    }
    return {along.front() * sign, over_s - kLeakIgnored_s, -line->slope, 2.0 * line->slope_u};
}

std::vector<LeakRate> leak_rates(const signal::Samples& samples, const std::vector<Span>& spans)
{
    std::optional<LeakRate> above, below;
    for (const auto& span : spans) {
        const auto first = index_of(samples.time_s, span.from_s), last = index_of(samples.time_s, span.to_s);
        if (span.what != SpanKind::leak_test || last <= first) {
            continue;
        }
        const auto rate =
            leak_rate(samples.time_s.subspan(first, last - first), samples.pressure_cmH2O.subspan(first, last - first));
        (rate.from_cmH2O < 0.0 ? below : above) = rate;
    }
    std::vector<LeakRate> rates;
    for (const auto& rate : {above, below}) {
        if (rate) {
            rates.push_back(*rate);
        }
    }
    return rates;
}

} // namespace zeroline::verification
