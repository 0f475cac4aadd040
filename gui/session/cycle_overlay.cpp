#include "gui/session/cycle_overlay.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::session {

namespace {

constexpr double kLead_s = 0.2;  ///< shown before the onset
constexpr double kStep_s = 0.02; ///< of the median's grid

double end_of(const verification::Cycle& cycle)
{
    const auto& last = cycle.pause && !cycle.rest_follows ? cycle.pause : cycle.exsufflation;
    return last ? last->last_time_s : cycle.insufflation ? cycle.insufflation->last_time_s : cycle.start_s;
}

OverlaidCycle cut_out(const trace::Trace& trace, const verification::Cycle& cycle, double zero_cmH2O)
{
    OverlaidCycle cut{cycle.index, cycle.judged, {}};
    const auto from =
        std::lower_bound(trace.time_s.begin(), trace.time_s.end(), cycle.start_s - kLead_s) - trace.time_s.begin();
    const double end_s = end_of(cycle);
    for (auto i = static_cast<std::size_t>(from); i < trace.size() && trace.time_s[i] <= end_s; ++i) {
        cut.samples.push_back({trace.time_s[i] - cycle.start_s, trace.pressure_cmH2O[i] - zero_cmH2O});
    }
    return cut;
}

/// The sample at or right before a moment; none where the cycle does not reach so far.
std::optional<double> at(const OverlaidCycle& cycle, double time_s)
{
    const auto after = std::upper_bound(cycle.samples.begin(), cycle.samples.end(), time_s,
                                        [](double time, const LiveSample& sample) { return time < sample.time_s; });
    if (after == cycle.samples.begin() || after == cycle.samples.end()) {
        return std::nullopt;
    }
    return std::prev(after)->pressure_cmH2O;
}

double median_of(std::vector<double>& values)
{
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) {
        return *middle;
    }
    return 0.5 * (*middle + *std::max_element(values.begin(), middle));
}

} // namespace

std::vector<LiveSample> median_curve(const std::vector<OverlaidCycle>& cycles)
{
    std::vector<const OverlaidCycle*> judged;
    double longest_s = 0.0;
    for (const auto& cycle : cycles) {
        if (cycle.judged && !cycle.samples.empty()) {
            judged.push_back(&cycle);
            longest_s = std::max(longest_s, cycle.samples.back().time_s);
        }
    }
    std::vector<LiveSample> curve;
    for (double time_s = -kLead_s; !judged.empty() && time_s <= longest_s; time_s += kStep_s) {
        std::vector<double> values;
        for (const auto* cycle : judged) {
            if (const auto value = at(*cycle, time_s)) {
                values.push_back(*value);
            }
        }
        if (2 * values.size() > judged.size()) {
            curve.push_back({time_s, median_of(values)});
        }
    }
    return curve;
}

CycleOverlay overlay(const trace::Trace& trace, const verification::Assessment& assessment, const std::string& preset)
{
    CycleOverlay made;
    const double zero_cmH2O = assessment.zero.before.value_or(0.0);
    for (const auto& cycle : assessment.cycles) {
        const bool by_hand = cycle.why_not_judged == "manual";
        if (!by_hand && !is_of_ladder(cycle, assessment) && cycle.preset == preset) {
            made.cycles.push_back(cut_out(trace, cycle, zero_cmH2O));
        }
    }
    made.median = median_curve(made.cycles);
    return made;
}

std::vector<PhaseBand> overlaid_bands(const std::vector<PhaseBand>& bands, const verification::Assessment& assessment,
                                      const std::string& preset)
{
    const auto cycle = std::find_if(assessment.cycles.begin(), assessment.cycles.end(), [&](const auto& one) {
        return one.judged && one.preset == preset && !is_of_ladder(one, assessment);
    });
    std::vector<PhaseBand> made;
    if (cycle == assessment.cycles.end()) {
        return made;
    }
    const double end_s = end_of(*cycle);
    for (auto band : bands) {
        if (band.from_s >= cycle->start_s && band.from_s < end_s) {
            band.from_s -= cycle->start_s;
            band.to_s -= cycle->start_s;
            made.push_back(band);
        }
    }
    return made;
}

} // namespace zeroline::session
