#include "analysis/verification/comparisons.hpp"

#include "analysis/verification/measurands.hpp"
#include "analysis/verification/unlike_cycle.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

const std::vector<std::string>& measurands()
{
    static const std::vector<std::string> kAll = {
        measurand::insufflation_pressure, measurand::exsufflation_pressure, measurand::insufflation_duration,
        measurand::exsufflation_duration, measurand::pause_duration,        measurand::pause_residual,
        measurand::return_to_zero,        measurand::oscillation_frequency, measurand::oscillation_amplitude};
    return kAll;
}

/// What two presets must agree on for a measurand to be judged once; none where the preset does not have it.
std::optional<double> key_of(const std::string& name, const Preset& preset)
{
    if (name == measurand::pause_residual || name == measurand::return_to_zero) {
        return preset.pause.duration_s > 0.0 ? std::optional<double>(preset.pause.pressure_cmH2O) : std::nullopt;
    }
    return nominal_of(name, preset);
}

std::vector<std::size_t> spans_of(const MeasuredTrace& measured_trace, const Preset& preset, SpanKind kind)
{
    std::vector<std::size_t> positions;
    for (std::size_t i = 0; i < measured_trace.spans.size(); ++i) {
        if (measured_trace.spans[i].span.what == kind && measured_trace.spans[i].prescribed == &preset) {
            positions.push_back(i);
        }
    }
    return positions;
}

/// Spans that were set alike, as far as `alike` looks.
template <class Alike>
std::vector<std::vector<std::size_t>> grouped(const MeasuredTrace& measured_trace,
                                              const std::vector<std::size_t>& spans, Alike alike)
{
    std::vector<std::vector<std::size_t>> groups;
    for (const auto position : spans) {
        const auto& set = measured_trace.spans[position].set;
        const auto it = std::find_if(groups.begin(), groups.end(), [&](const std::vector<std::size_t>& group) {
            return alike(measured_trace.spans[group.front()].set, set);
        });
        if (it == groups.end()) {
            groups.push_back({position});
        } else {
            it->push_back(position);
        }
    }
    return groups;
}

bool same_for(const std::string& name, const Preset& a, const Preset& b) { return key_of(name, a) == key_of(name, b); }

bool same_throughout(const Preset& a, const Preset& b)
{
    return std::all_of(measurands().begin(), measurands().end(),
                       [&](const std::string& name) { return same_for(name, a, b); });
}

int rests_in(const std::vector<const Cycle*>& cycles)
{
    return static_cast<int>(
        std::count_if(cycles.begin(), cycles.end(), [](const Cycle* cycle) { return cycle->rest_follows; }));
}

int needed(const MeasuredTrace& measured_trace, const std::string& name, const std::vector<std::size_t>& spans)
{
    const int cycles = cycles_needed(measured_trace);
    if (!is_of_pause(name)) {
        return cycles;
    }
    return std::max(1, cycles - rests_in(judged_cycles(measured_trace, spans)) - static_cast<int>(spans.size()));
}

/// With a pause of 0 there is nothing to judge, unless one was seen: then its duration is too long.
bool asked(const MeasuredTrace& measured_trace, const Comparison& comparison)
{
    const auto key = key_of(comparison.measurand, comparison.nominal);
    if (!key) {
        return false;
    }
    const bool none_due = comparison.measurand == measurand::pause_duration && *key == 0.0;
    return !none_due || pause_seen(measured_trace, comparison.spans);
}

void add_if_asked(const MeasuredTrace& measured_trace, std::vector<Comparison>& all, Comparison comparison)
{
    if (asked(measured_trace, comparison)) {
        const bool none_due = is_of_pause(comparison.measurand) && comparison.nominal.pause.duration_s == 0.0;
        comparison.needed = none_due ? 1 : comparison.needed;
        all.push_back(std::move(comparison));
    }
}

struct Powered {
    std::string power;
    std::vector<std::size_t> spans;
};

/// Where a preset ran on mains and on battery, each answers for its own pressures.
std::vector<Powered> by_power(const MeasuredTrace& measured_trace, const Preset& preset, const std::string& name)
{
    auto both = spans_by_power(measured_trace, preset);
    if (measurand_named(name)->kind != MeasurandKind::pressure || both.mains.empty() || both.battery.empty()) {
        return {{"", spans_of(measured_trace, preset, SpanKind::automatic)}};
    }
    return {{"mains", std::move(both.mains)}, {"battery", std::move(both.battery)}};
}

void add_automatic(const MeasuredTrace& measured_trace, const Preset& preset, const std::string& name,
                   const Powered& powered, std::vector<Comparison>& all)
{
    const auto& spans = powered.spans;
    const auto groups =
        grouped(measured_trace, spans, [&](const Preset& a, const Preset& b) { return same_for(name, a, b); });
    const bool otherwise = std::any_of(groups.begin(), groups.end(), [&](const std::vector<std::size_t>& group) {
        return !same_for(name, measured_trace.spans[group.front()].set, preset);
    });
    const int due = needed(measured_trace, name, spans);
    add_if_asked(measured_trace, all,
                 {name, &preset, "prescribed", preset, spans, due, false, true, !otherwise, powered.power});
    // The return is measured to a band about the prescribed level: about another one it was not looked for.
    if (!otherwise || name == measurand::return_to_zero) {
        return;
    }
    for (const auto& group : groups) {
        const auto& set = measured_trace.spans[group.front()].set;
        add_if_asked(
            measured_trace, all,
            {name, &preset, "set", set, group, groups.size() == 1 ? due : 1, false, false, true, powered.power});
    }
}

void add_ladder(const MeasuredTrace& measured_trace, const Preset& preset, std::vector<Comparison>& all)
{
    for (const auto& group :
         grouped(measured_trace, spans_of(measured_trace, preset, SpanKind::ladder), same_throughout)) {
        for (const auto& name : measurands()) {
            const auto& set = measured_trace.spans[group.front()].set;
            add_if_asked(measured_trace, all, {name, &preset, "set", set, group, 1, true, false, true});
        }
    }
}

} // namespace

PowerSpans spans_by_power(const MeasuredTrace& measured_trace, const Preset& preset)
{
    PowerSpans both;
    for (const auto position : spans_of(measured_trace, preset, SpanKind::automatic)) {
        (measured_trace.spans[position].span.on_battery() ? both.battery : both.mains).push_back(position);
    }
    return both;
}

std::vector<const Cycle*> judged_cycles(const MeasuredTrace& measured_trace, const std::vector<std::size_t>& spans)
{
    std::vector<const Cycle*> cycles;
    for (const auto& cycle : measured_trace.cycles) {
        const bool here = std::any_of(spans.begin(), spans.end(), [&](std::size_t position) {
            return measured_trace.spans[position].index == cycle.span;
        });
        if (cycle.judged && here) {
            cycles.push_back(&cycle);
        }
    }
    return cycles;
}

int cycles_needed(const MeasuredTrace& measured_trace)
{
    return measured_trace.evidence->order->cycles * (has_unlike_cycle(measured_trace) ? 2 : 1);
}

bool pause_seen(const MeasuredTrace& measured_trace, const std::vector<std::size_t>& spans)
{
    const auto cycles = judged_cycles(measured_trace, spans);
    return std::any_of(cycles.begin(), cycles.end(),
                       [](const Cycle* cycle) { return cycle->pause && !cycle->pause->cut() && !cycle->rest_follows; });
}

std::vector<Comparison> comparisons(const MeasuredTrace& measured_trace, const Preset& preset)
{
    std::vector<Comparison> all;
    for (const auto& name : measurands()) {
        for (const auto& powered : by_power(measured_trace, preset, name)) {
            add_automatic(measured_trace, preset, name, powered, all);
        }
    }
    add_ladder(measured_trace, preset, all);
    return all;
}

} // namespace zeroline::verification
