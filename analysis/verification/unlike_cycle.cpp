#include "analysis/verification/unlike_cycle.hpp"

#include "analysis/signal/statistics.hpp"
#include "analysis/verification/criticals.hpp"
#include "analysis/verification/measurands.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace zeroline::verification {

namespace {

using signal::PhaseKind;

constexpr std::size_t kFewestOthers = 3;
constexpr double kDeviations = 6.0;               // from the others, of the others: scatter does not reach so far
constexpr double kFar_cmH2O = 1.0, kFar_s = 0.05; // and so far at least
constexpr double kSameEdge_s = 0.015; // a valve's own time may scatter so (docs/diagnosis.md, irregular-swing)
constexpr double kSameEdge = 0.25;    // of the others' time

const std::array<std::string, 7>& looked_at()
{
    static const std::array<std::string, 7> kAll{measurand::insufflation_pressure, measurand::exsufflation_pressure,
                                                 measurand::insufflation_duration, measurand::exsufflation_duration,
                                                 measurand::pause_duration,        measurand::pause_residual,
                                                 measurand::return_to_zero};
    return kAll;
}

/// One preset's judged cycles in its automatic spans.
std::vector<const Cycle*> cycles_of(const MeasuredTrace& measured_trace, const Preset& preset)
{
    std::vector<const Cycle*> cycles;
    for (const auto& cycle : measured_trace.cycles) {
        if (cycle.judged && cycle.preset == preset.name &&
            span_of(measured_trace, cycle).span.what == SpanKind::automatic)
            cycles.push_back(&cycle);
    }
    return cycles;
}

std::optional<double> value_of(const Cycle& cycle, const std::string& name)
{
    const auto at = cycle.quantities.find(name);
    if (at == cycle.quantities.end() || (is_of_pause(name) && cycle.rest_follows))
        return std::nullopt;
    return at->second.value;
}

bool never_returned(const Cycle& cycle, const std::string& name)
{
    return name == measurand::return_to_zero && cycle.pause && !cycle.pause->cut() && !cycle.pause->returned;
}

bool is_outside(const Cycle& cycle, const std::string& name, const metrology::Limits& limits)
{
    const auto value = value_of(cycle, name);
    return never_returned(cycle, name) || (value && metrology::margin(*value, limits) < 0.0);
}

double least(const std::string& name)
{
    const bool time = name == measurand::return_to_zero || name.ends_with("-duration");
    return time ? kFar_s : kFar_cmH2O;
}

/// The value lies farther from the others than they lie from each other, whatever the tolerance.
bool is_far(const Cycle& odd, const std::vector<const Cycle*>& all, const std::string& name)
{
    std::vector<double> others;
    for (const auto* cycle : all)
        if (const auto value = value_of(*cycle, name); value && cycle != &odd)
            others.push_back(*value);
    const auto mean = signal::mean(others), deviation = signal::standard_deviation(others);
    const auto value = value_of(odd, name);
    if (!mean || !deviation)
        return false;
    return !value || std::abs(*value - *mean) > std::max(kDeviations * *deviation, least(name));
}

std::optional<double> edge_s(const Cycle& cycle, PhaseKind kind)
{
    const auto& phase = kind == PhaseKind::insufflation   ? cycle.insufflation
                        : kind == PhaseKind::exsufflation ? cycle.exsufflation
                                                          : cycle.pause;
    return phase && phase->entering ? phase->entering->time_10_90_s : std::nullopt;
}

/// A level on one side of the edge into `kind` is far off itself: the edge's time is then no measure of the valve.
bool between_far_levels(const Cycle& odd, const std::vector<const Cycle*>& all, PhaseKind kind)
{
    const auto far = [&](const std::string& name) { return is_far(odd, all, name); };
    switch (kind) {
    case PhaseKind::insufflation:
        return far(measurand::insufflation_pressure);
    case PhaseKind::exsufflation:
        return far(measurand::insufflation_pressure) || far(measurand::exsufflation_pressure);
    case PhaseKind::pause:
        return far(measurand::exsufflation_pressure) || far(measurand::pause_residual);
    }
    return false;
}

/// Its valve took another time than in the other cycles, or takes another time in each of them.
bool moves_irregularly(const Cycle& odd, const std::vector<const Cycle*>& all, PhaseKind kind)
{
    std::vector<double> others;
    for (const auto* cycle : all)
        if (const auto time = edge_s(*cycle, kind); time && cycle != &odd)
            others.push_back(*time);
    const auto usual = signal::median(others), deviation = signal::standard_deviation(others);
    if (!usual || !deviation)
        return false;
    const double allowed = std::max(kSameEdge_s, kSameEdge * *usual);
    const auto own = between_far_levels(odd, all, kind) ? std::nullopt : edge_s(odd, kind);
    return *deviation > allowed || (own && std::abs(*own - *usual) > allowed);
}

bool beyond_by_more_than_u(const MeasuredTrace& measured_trace, const Cycle& odd)
{
    const auto all = criticals(measured_trace, {});
    return std::any_of(all.begin(), all.end(),
                       [&](const Critical& one) { return one.cycle == odd.index && !one.within_u; });
}

/// What is outside in one preset: the cycles, and whether the first of them is far off wherever it is outside.
struct Outside {
    std::vector<const Cycle*> cycles;
    bool far = true;
};

Outside outside_in(const MeasuredTrace& measured_trace, const Preset& preset, const std::vector<const Cycle*>& all)
{
    Outside found;
    for (const auto& name : looked_at()) {
        const auto limits = limits_of(name, preset, *measured_trace.evidence->order, measured_trace.evidence->house);
        for (const auto* cycle : all) {
            if (!is_outside(*cycle, name, limits))
                continue;
            if (std::find(found.cycles.begin(), found.cycles.end(), cycle) == found.cycles.end())
                found.cycles.push_back(cycle);
            found.far = found.far && is_far(*cycle, all, name);
        }
    }
    return found;
}

/// Units have reasons of their own for a first cycle that is unlike the others.
bool begins_its_span(const MeasuredTrace& measured_trace, const Cycle& odd)
{
    return std::none_of(measured_trace.cycles.begin(), measured_trace.cycles.end(),
                        [&](const Cycle& other) { return other.span == odd.span && other.index < odd.index; });
}

bool excused(const MeasuredTrace& measured_trace, const Cycle& odd, const std::vector<const Cycle*>& all)
{
    for (const auto kind : {PhaseKind::insufflation, PhaseKind::exsufflation, PhaseKind::pause})
        if (moves_irregularly(odd, all, kind))
            return false;
    return all.size() > kFewestOthers && !begins_its_span(measured_trace, odd) &&
           !beyond_by_more_than_u(measured_trace, odd);
}

} // namespace

std::optional<int> unlike_cycle(const MeasuredTrace& measured_trace)
{
    if (!measured_trace.evidence->run || measured_trace.evidence->run->unlike_in_attempt)
        return std::nullopt;
    std::optional<int> found;
    for (const auto& preset : measured_trace.evidence->order->presets) {
        const auto all = cycles_of(measured_trace, preset);
        const auto outside = outside_in(measured_trace, preset, all);
        if (outside.cycles.empty())
            continue;
        const auto& odd = *outside.cycles.front();
        if (found || outside.cycles.size() > 1 || !outside.far || !excused(measured_trace, odd, all))
            return std::nullopt;
        found = odd.index;
    }
    return found;
}

bool has_unlike_cycle(const MeasuredTrace& measured_trace)
{
    return std::any_of(measured_trace.cycles.begin(), measured_trace.cycles.end(),
                       [](const Cycle& cycle) { return cycle.why_not_judged == "one-cycle-unlike"; });
}

} // namespace zeroline::verification
