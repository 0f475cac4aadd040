#include "analysis/verification/zero.hpp"

#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

namespace zeroline::verification {

namespace {

/// The readings of an open port without spikes: a spike of 60 cmH2O in a second of readings would shift their mean.
std::vector<double> without_spikes(std::vector<double> values)
{
    const double center = signal::median(values).value_or(0.0);
    std::vector<double> distances(values.size());
    std::transform(values.begin(), values.end(), distances.begin(), [&](double v) { return std::abs(v - center); });
    constexpr double kNormal = 1.4826; // median distance to standard deviation
    constexpr double kFar = 8.0;
    constexpr double kFloor_cmH2O = 0.05; // quantised readings may all be equal
    const double far = std::max(kFar * kNormal * signal::median(distances).value_or(0.0), kFloor_cmH2O);
    values.erase(std::remove_if(values.begin(), values.end(), [&](double v) { return std::abs(v - center) > far; }),
                 values.end());
    return values;
}

struct Reading {
    double mean = 0.0;
    std::optional<double> noise;
    double inflation = 1.0;
    double mean_u = 0.0;
};

Reading described(std::vector<double> values)
{
    Reading reading;
    reading.mean = signal::mean(values).value_or(0.0);
    reading.noise = signal::standard_deviation(values);
    const auto count = static_cast<double>(values.size());
    for (auto& value : values) {
        value -= reading.mean;
    }
    if (const auto of_mean = signal::uncertainty_of_mean(values, 1)) {
        reading.inflation = std::max(1.0, count / of_mean->effective_count);
        reading.mean_u = of_mean->standard_uncertainty;
    }
    return reading;
}

std::optional<Reading> reading_of(const trace::Trace& trace, const Span& span)
{
    // An interval more is allowed: the last sample of 3 s at 50 Hz lies at 2.98 s.
    const double interval = trace.sampling.rate_hz > 0.0 ? 1.0 / trace.sampling.rate_hz : 0.0;
    const auto [first, last] = samples_between(trace, span.from_s, span.to_s);
    if (last - first < 2 || trace.time_s[last - 1] - trace.time_s[first] < kShortestZero_s - 2.0 * interval) {
        return std::nullopt;
    }
    const auto begin = trace.pressure_cmH2O.begin();
    return described(without_spikes({begin + static_cast<std::ptrdiff_t>(first), //
                                     begin + static_cast<std::ptrdiff_t>(last)}));
}

} // namespace

std::pair<std::size_t, std::size_t> samples_between(const trace::Trace& trace, double from_s, double to_s)
{
    const auto& time = trace.time_s;
    const auto first = std::lower_bound(time.begin(), time.end(), from_s);
    const auto last = std::upper_bound(first, time.end(), to_s);
    return {static_cast<std::size_t>(first - time.begin()), static_cast<std::size_t>(last - time.begin())};
}

ZeroReadings read_zero(const trace::Trace& trace, const std::vector<Span>& spans)
{
    std::optional<double> begins;
    std::optional<double> ends;
    for (const auto& span : spans) {
        if (is_cycling(span.what)) {
            begins = std::min(begins.value_or(span.from_s), span.from_s);
            ends = std::max(ends.value_or(span.to_s), span.to_s);
        }
    }
    const Span* before = nullptr;
    const Span* after = nullptr;
    for (const auto& span : spans) {
        const bool leads = span.what == SpanKind::zero_before && (!begins || span.to_s <= *begins);
        const bool closes = span.what == SpanKind::zero_after && (!ends || span.from_s >= *ends);
        before = leads && (before == nullptr || span.from_s > before->from_s) ? &span : before;
        after = closes && (after == nullptr || span.from_s < after->from_s) ? &span : after;
    }
    ZeroReadings zero;
    if (const auto reading = before != nullptr ? reading_of(trace, *before) : std::nullopt) {
        zero.before = reading->mean;
        zero.before_at_s = before->from_s;
        zero.noise = reading->noise;
        zero.noise_inflation = reading->inflation;
        zero.before_u = reading->mean_u;
    }
    if (const auto reading = after != nullptr ? reading_of(trace, *after) : std::nullopt) {
        zero.after = reading->mean;
    }
    if (zero.before && zero.after) {
        zero.drift = *zero.after - *zero.before;
    }
    return zero;
}

} // namespace zeroline::verification
