#include "analysis/verification/findings/finding_basis.hpp"

#include "analysis/signal/statistics.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

bool is_out(const Cycle& cycle)
{
    static const std::vector<std::string> out{"gap", "clipped", "stuck-reading", "plug-off", "one-cycle-unlike"};
    return std::find(out.begin(), out.end(), cycle.why_not_judged) != out.end();
}

Group& group_for(std::vector<Group>& groups, const MeasuredSpan& span)
{
    const bool ladder = span.span.what == SpanKind::ladder;
    for (auto& group : groups)
        if (!ladder && !group.ladder && group.preset == span.span.preset)
            return group;
    groups.push_back(
        {span.span.preset, ladder, span.prescribed, span.set, ladder ? span.set : *span.prescribed, {}, {}, {}});
    return groups.back();
}

std::vector<Group> groups_of(const MeasuredTrace& measured_trace)
{
    std::vector<Group> groups;
    for (const auto& span : measured_trace.spans) {
        if (span.span.what != SpanKind::automatic && span.span.what != SpanKind::ladder)
            continue;
        auto& group = group_for(groups, span);
        group.spans.push_back(&span);
        for (const auto& cycle : measured_trace.cycles) {
            if (cycle.span != span.index)
                continue;
            if (cycle.judged)
                group.judged.push_back(&cycle);
            if (cycle.insufflation && cycle.exsufflation && !is_out(cycle))
                group.whole.push_back(&cycle);
        }
    }
    return groups;
}

bool oscillation_prescribed(const WorkOrder& order)
{
    return std::any_of(order.presets.begin(), order.presets.end(),
                       [](const auto& p) { return p.oscillation.has_value(); });
}

template <class Take> std::vector<Value> collect(const std::vector<const Cycle*>& cycles, Take take)
{
    std::vector<Value> values;
    for (const auto* cycle : cycles)
        if (const std::optional<double> value = take(*cycle))
            values.push_back({cycle, *value});
    return values;
}

} // namespace

FindingBasis::FindingBasis(const MeasuredTrace& seen)
    : measured_trace(seen), order(*seen.evidence->order), house(seen.evidence->house), groups(groups_of(seen)),
      holes(verification::holes(seen)), exclusions(verification::exclusions(seen)),
      lower_end(verification::lower_end(seen))
{
}

std::vector<std::string> FindingBasis::pressure_measurands() const
{
    std::vector<std::string> names{measurand::insufflation_pressure,  measurand::exsufflation_pressure,
                                   measurand::pause_residual,         measurand::return_to_zero,
                                   measurand::displayed_insufflation, measurand::displayed_exsufflation};
    if (oscillation_prescribed(order))
        names.push_back(measurand::oscillation_amplitude);
    return names;
}

std::vector<std::string> FindingBasis::all_measurands() const
{
    auto names = pressure_measurands();
    names.insert(names.begin() + 2,
                 {measurand::insufflation_duration, measurand::exsufflation_duration, measurand::pause_duration});
    if (oscillation_prescribed(order))
        names.push_back(measurand::oscillation_frequency);
    return names;
}

std::vector<int> FindingBasis::cycles_between(double from_s, double to_s) const
{
    std::vector<int> which;
    for (const auto& cycle : measured_trace.cycles)
        if (cycle.start_s < to_s && end_s(cycle) > from_s)
            which.push_back(cycle.index);
    return which;
}

signal::Samples FindingBasis::samples_between(double from_s, double to_s) const
{
    const auto& times = measured_trace.samples.time_s;
    const auto first = std::lower_bound(times.begin(), times.end(), from_s),
               last = std::upper_bound(first, times.end(), to_s);
    return measured_trace.samples.part(static_cast<std::size_t>(first - times.begin()),
                                       static_cast<std::size_t>(last - times.begin()));
}

const std::optional<signal::Phase>& phase_of(const Cycle& cycle, signal::PhaseKind kind)
{
    switch (kind) {
    case kInsufflation:
        return cycle.insufflation;
    case kExsufflation:
        return cycle.exsufflation;
    case kPause:
        break;
    }
    return cycle.pause;
}

const PhaseSetting& setting_of(const Preset& preset, signal::PhaseKind kind)
{
    switch (kind) {
    case kInsufflation:
        return preset.insufflation;
    case kExsufflation:
        return preset.exsufflation;
    case kPause:
        break;
    }
    return preset.pause;
}

std::string word_of(signal::PhaseKind kind)
{
    switch (kind) {
    case kInsufflation:
        return "insufflation";
    case kExsufflation:
        return "exsufflation";
    case kPause:
        break;
    }
    return "pause";
}

const std::string& pressure_of(signal::PhaseKind kind)
{
    return kind == kInsufflation ? measurand::insufflation_pressure : measurand::exsufflation_pressure;
}

const std::string& duration_of(signal::PhaseKind kind)
{
    switch (kind) {
    case kInsufflation:
        return measurand::insufflation_duration;
    case kExsufflation:
        return measurand::exsufflation_duration;
    case kPause:
        break;
    }
    return measurand::pause_duration;
}

double end_s(const Cycle& cycle)
{
    double end = cycle.start_s;
    for (const auto kind : {kInsufflation, kExsufflation, kPause})
        if (const auto& phase = phase_of(cycle, kind))
            end = std::max(end, phase->leaving ? phase->leaving->onset.time_s : phase->start_s());
    return end;
}

std::vector<Value> plateaus(const std::vector<const Cycle*>& cycles, signal::PhaseKind kind)
{
    return collect(cycles, [kind](const Cycle& cycle) -> std::optional<double> {
        const auto& phase = phase_of(cycle, kind);
        return phase && phase->plateau ? std::optional(phase->plateau->value_cmH2O) : std::nullopt;
    });
}

std::vector<Value> durations(const std::vector<const Cycle*>& cycles, signal::PhaseKind kind)
{
    return collect(cycles, [kind](const Cycle& cycle) -> std::optional<double> {
        const auto at = cycle.quantities.find(duration_of(kind));
        if (at == cycle.quantities.end() || (kind == kPause && cycle.rest_follows))
            return std::nullopt;
        return at->second.value;
    });
}

std::vector<Value> residuals(const std::vector<const Cycle*>& cycles, double pause_level_cmH2O)
{
    return collect(cycles, [=](const Cycle& cycle) -> std::optional<double> {
        if (!cycle.pause || !cycle.pause->plateau || cycle.pause->cut())
            return std::nullopt;
        return cycle.pause->plateau->value_cmH2O - pause_level_cmH2O;
    });
}

bool is_outside(const Value& value, const std::string& measurand, const metrology::Limits& limits)
{
    if (metrology::margin(value.value, limits) >= 0.0)
        return false;
    const auto at = value.cycle->quantities.find(measurand);
    return at == value.cycle->quantities.end() ||
           !metrology::too_uncertain(value.value, at->second.expanded.expanded_uncertainty, limits);
}

std::vector<double> numbers(const std::vector<Value>& values)
{
    std::vector<double> plain;
    for (const auto& value : values)
        plain.push_back(value.value);
    return plain;
}

std::optional<double> mean_of(const std::vector<Value>& values) { return signal::mean(numbers(values)); }

std::optional<double> median_of(const std::vector<Value>& values) { return signal::median(numbers(values)); }

} // namespace zeroline::verification
