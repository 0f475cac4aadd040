#include "analysis/verification/findings/sensor_signs.hpp"

#include "acquisition/trace/units.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace zeroline::verification {

namespace {

constexpr std::size_t kShortestRun = 5;
constexpr double kShortestRun_s = 0.03;
constexpr double kClippedRun_s = 0.05;                  // an overshoot's top is flat for less
constexpr double kStill_s = 0.1, kStillByChance = 1e-9; // anywhere in the trace
constexpr double kStillOfUnknownStep_s = 1.0;
constexpr double kPastEveryPhase = 1.3; // no phase is that much longer than the longest prescribed one
constexpr double kHoleIntervals = 3.0;
constexpr double kLateIntervals = 1.5;
constexpr double kEdgeReach = 1.5;     // a transition, from its onset, in 10-90 % times
constexpr double kLowerEnd = 0.2;      // of the larger plateau: the lower end of a sensor for one side
constexpr double kOneSidedShare = 0.8; // of the insufflations are followed by a flat lower end

/// Times of the transitions of a measured_trace, onset to settled, in order.
std::vector<std::pair<double, double>> edges(const MeasuredTrace& measured_trace)
{
    std::vector<std::pair<double, double>> all;
    for (const auto& span : measured_trace.spans)
        for (const auto& phase : span.phases)
            if (phase.entering)
                all.emplace_back(phase.entering->onset.time_s,
                                 phase.entering->onset.time_s +
                                     kEdgeReach * phase.entering->time_10_90_s.value_or(0.2));
    std::sort(all.begin(), all.end());
    return all;
}

bool within(const std::vector<std::pair<double, double>>& edges, double from_s, double to_s)
{
    const auto after =
        std::upper_bound(edges.begin(), edges.end(), to_s, [](double t, const auto& e) { return t < e.first; });
    return after != edges.begin() && std::prev(after)->second > from_s;
}

std::int64_t lost_after(const trace::Trace& trace, std::size_t sample)
{
    const auto at = std::lower_bound(trace.lost.begin(), trace.lost.end(), sample,
                                     [](const auto& lost, std::size_t i) { return lost.after_sample < i; });
    return at != trace.lost.end() && at->after_sample == sample ? at->how_many : 0;
}

double longest_phase_s(const MeasuredTrace& measured_trace)
{
    double longest = 0.0;
    for (const auto& preset : measured_trace.evidence->order->presets)
        longest = std::max({longest, preset.insufflation.duration_s, preset.exsufflation.duration_s,
                            preset.pause.duration_s, preset.series ? preset.series->rest_s : 0.0});
    return longest;
}

bool in_cycling(const MeasuredTrace& measured_trace, double from_s, double to_s)
{
    return std::any_of(measured_trace.spans.begin(), measured_trace.spans.end(), [&](const MeasuredSpan& span) {
        return span.span.what != SpanKind::manual && to_s > span.span.from_s && from_s < span.span.to_s;
    });
}

bool at_range_end(const MeasuredTrace& measured_trace, double value_cmH2O)
{
    const auto* instrument = measured_trace.evidence->instrument;
    if (!instrument)
        return false;
    const double near = 2.0 * std::max(resolution_cmH2O(measured_trace), 0.01);
    const double reading = value_cmH2O + measured_trace.zero.before.value_or(0.0);
    return std::abs(reading - trace::to_cmH2O(instrument->range.high, instrument->range.unit)) < near ||
           std::abs(reading - trace::to_cmH2O(instrument->range.low, instrument->range.unit)) < near;
}

/// At most how likely a live sensor shows so many equal readings in a row anywhere in the trace: its noise is normal,
/// the level lies in the middle of a step, and of readings that follow each other only as many count as are
/// independent.
double chance_of(const MeasuredTrace& measured_trace, const ConstantRun& run)
{
    const double same =
        std::erf(resolution_cmH2O(measured_trace) / (2.0 * std::numbers::sqrt2 * measured_trace.noise_cmH2O));
    const double independent = static_cast<double>(run.size() - 1) / measured_trace.zero.noise_inflation;
    return static_cast<double>(measured_trace.samples.size()) * std::pow(same, independent);
}

/// No live sensor with the noise of the open port stays still for so long.
bool is_too_still(const MeasuredTrace& measured_trace, const ConstantRun& run)
{
    if (measured_trace.noise_cmH2O <= 0.0)
        return false;
    if (resolution_cmH2O(measured_trace) <= 0.0)
        return run.length_s() > kStillOfUnknownStep_s;
    return run.length_s() >= kStill_s && chance_of(measured_trace, run) < kStillByChance;
}

} // namespace

double median_interval_s(const MeasuredTrace& measured_trace)
{
    const double rate = measured_trace.evidence->trace->sampling.rate_hz;
    return rate > 0.0 ? 1.0 / rate : 0.0;
}

double resolution_cmH2O(const MeasuredTrace& measured_trace)
{
    const auto* instrument = measured_trace.evidence->instrument;
    return instrument ? trace::to_cmH2O(instrument->range.resolution, instrument->range.unit) : 0.0;
}

bool noise_shows(const MeasuredTrace& measured_trace)
{
    return measured_trace.noise_cmH2O > 0.0 && measured_trace.noise_cmH2O > 0.5 * resolution_cmH2O(measured_trace);
}

Readings readings_of(signal::Samples samples, double interval_s)
{
    const auto &time_s = samples.time_s, &pressure = samples.pressure_cmH2O; // Clang 14 captures no structured binding
    Readings readings;
    if (pressure.empty())
        return readings;
    double low = pressure[0], high = pressure[0];
    const auto add_run = [&](std::size_t first, std::size_t last) {
        if (last - first >= kShortestRun && time_s[last - 1] - time_s[first] >= kShortestRun_s)
            readings.constant.push_back({first, last, time_s[first], time_s[last - 1], pressure[first]});
    };
    std::size_t first = 0;
    for (std::size_t i = 1; i < pressure.size(); ++i) {
        low = std::min(low, pressure[i]);
        high = std::max(high, pressure[i]);
        if (time_s[i] - time_s[i - 1] > kLateIntervals * interval_s)
            readings.late.push_back(i);
        if (pressure[i] != pressure[i - 1]) {
            add_run(first, i);
            first = i;
        }
    }
    add_run(first, pressure.size());
    readings.lowest_cmH2O = low;
    readings.highest_cmH2O = high;
    return readings;
}

std::vector<Hole> holes(const MeasuredTrace& measured_trace)
{
    const auto& time_s = measured_trace.samples.time_s;
    const double interval = median_interval_s(measured_trace);
    const auto transitions = edges(measured_trace);
    std::vector<Hole> all;
    for (const std::size_t i : measured_trace.readings.late) {
        const double missing = time_s[i] - time_s[i - 1];
        const auto lost = lost_after(*measured_trace.evidence->trace, i - 1);
        // Half an interval more, so that three intervals to the last bit are not a matter of rounding.
        const bool wide = missing > (kHoleIntervals + 0.5) * interval;
        if (wide || lost > 0)
            all.push_back({time_s[i - 1], time_s[i], lost, wide || within(transitions, time_s[i - 1], time_s[i])});
    }
    return all;
}

std::vector<ConstantRun> clipped_runs(const MeasuredTrace& measured_trace)
{
    const double low = measured_trace.readings.lowest_cmH2O, high = measured_trace.readings.highest_cmH2O;
    const auto end = lower_end(measured_trace);
    std::vector<ConstantRun> clipped;
    for (const auto& run : measured_trace.readings.constant) {
        const bool extreme = run.value_cmH2O == high || (run.value_cmH2O == low && !end.seen);
        const bool tells = noise_shows(measured_trace) || at_range_end(measured_trace, run.value_cmH2O);
        if (extreme && tells && run.length_s() >= kClippedRun_s)
            clipped.push_back(run);
    }
    const bool limit = std::any_of(clipped.begin(), clipped.end(),
                                   [&](const auto& run) { return at_range_end(measured_trace, run.value_cmH2O); });
    return clipped.size() >= 2 || limit ? clipped : std::vector<ConstantRun>{};
}

std::vector<ConstantRun> stuck_runs(const MeasuredTrace& measured_trace)
{
    const auto clipped = clipped_runs(measured_trace);
    const auto end = lower_end(measured_trace);
    const double overdue_s = kPastEveryPhase * longest_phase_s(measured_trace);
    std::vector<ConstantRun> stuck;
    for (const auto& run : measured_trace.readings.constant) {
        const bool overdue = run.length_s() > overdue_s && in_cycling(measured_trace, run.from_s, run.to_s);
        const bool too_still = is_too_still(measured_trace, run);
        const bool is_clipped =
            std::any_of(clipped.begin(), clipped.end(), [&](const auto& c) { return c.first == run.first; });
        const bool is_lower_end = end.seen && run.value_cmH2O == end.value_cmH2O;
        if ((overdue && std::abs(run.value_cmH2O) > 0.2 * measured_trace.larger_plateau_cmH2O) || too_still)
            if ((!is_clipped || overdue) && !is_lower_end)
                stuck.push_back(run);
    }
    return stuck;
}

LowerEnd lower_end(const MeasuredTrace& measured_trace)
{
    LowerEnd end;
    if (measured_trace.samples.size() == 0)
        return end;
    end.value_cmH2O = measured_trace.readings.lowest_cmH2O;
    if (std::abs(end.value_cmH2O) > kLowerEnd * measured_trace.larger_plateau_cmH2O)
        return end;
    std::size_t insufflations = 0;
    for (const auto& span : measured_trace.spans)
        for (const auto& phase : span.phases)
            insufflations += phase.kind == signal::PhaseKind::insufflation ? 1 : 0;
    for (const auto& run : measured_trace.readings.constant)
        if (run.value_cmH2O == end.value_cmH2O && run.length_s() >= 0.2)
            end.times_s.push_back(run.from_s);
    end.seen = insufflations > 0 && noise_shows(measured_trace) &&
               static_cast<double>(end.times_s.size()) >= kOneSidedShare * static_cast<double>(insufflations);
    return end;
}

} // namespace zeroline::verification
