#include "acquisition/trace/calibration.hpp"
#include "acquisition/trace/sample_clock.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace zeroline::trace {

namespace {

double median_interval_s(const std::vector<double>& time_s)
{
    if (time_s.size() < 2) {
        return 0.0;
    }
    std::vector<double> intervals(time_s.size() - 1);
    for (std::size_t i = 0; i + 1 < time_s.size(); ++i) {
        intervals[i] = time_s[i + 1] - time_s[i];
    }
    const auto middle = intervals.begin() + static_cast<std::ptrdiff_t>(intervals.size() / 2);
    std::nth_element(intervals.begin(), middle, intervals.end());
    return *middle;
}

void fit_times(RawTrace& raw, Sampling& sampling, const Instrument* instrument)
{
    std::vector<std::int64_t> index(raw.moment_s.size());
    for (std::size_t i = 0; i < index.size(); ++i) {
        index[i] = static_cast<std::int64_t>(i);
    }
    const auto fit = fit_clock(raw.moment_s, index);
    if (!fit || !(fit->interval_s > 0.0)) {
        return;
    }
    for (std::size_t i = 0; i < index.size(); ++i) {
        raw.moment_s[i] = fit->time_of(static_cast<double>(index[i]));
    }
    sampling.residual_s = fit->residual_s;
    if (instrument != nullptr) {
        sampling.rate_error_ppm = (1.0 / fit->interval_s / instrument->nominal_hz - 1.0) * 1e6;
    }
}

} // namespace

Trace derive(RawTrace raw, const Instrument* instrument)
{
    Trace trace;
    trace.sampling.from_arrivals = raw.from_arrivals;
    if (raw.from_arrivals) {
        fit_times(raw, trace.sampling, instrument);
    }
    for (const auto& note : raw.notes) {
        trace.events.push_back({raw.moment_s[note.row], note.kind, note.text});
    }
    const Correction correction = instrument ? Correction(raw.unit, *instrument) : Correction(raw.unit);
    std::size_t kept = 0;
    for (std::size_t i = 0; i < raw.moment_s.size(); ++i) {
        if (!std::isnan(raw.pressure[i])) {
            raw.moment_s[kept] = raw.moment_s[i];
            raw.pressure[kept] = correction.to_cmH2O(raw.pressure[i]);
            ++kept;
        }
    }
    raw.moment_s.resize(kept);
    raw.pressure.resize(kept);
    trace.time_s = std::move(raw.moment_s);
    trace.pressure_cmH2O = std::move(raw.pressure);
    const double interval_s = median_interval_s(trace.time_s);
    trace.sampling.rate_hz = interval_s > 0.0 ? 1.0 / interval_s : 0.0;
    return trace;
}

} // namespace zeroline::trace
