#include "analysis/verification/subjects.hpp"

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

std::vector<std::size_t> spans_of(const Scene& scene, const Preset& preset, SpanKind kind)
{
    std::vector<std::size_t> positions;
    for (std::size_t i = 0; i < scene.spans.size(); ++i) {
        if (scene.spans[i].span.what == kind && scene.spans[i].prescribed == &preset) {
            positions.push_back(i);
        }
    }
    return positions;
}

/// Spans that were set alike, as far as `alike` looks.
template <class Alike>
std::vector<std::vector<std::size_t>> grouped(const Scene& scene, const std::vector<std::size_t>& spans, Alike alike)
{
    std::vector<std::vector<std::size_t>> groups;
    for (const auto position : spans) {
        const auto& set = scene.spans[position].set;
        const auto it = std::find_if(groups.begin(), groups.end(), [&](const std::vector<std::size_t>& group) {
            return alike(scene.spans[group.front()].set, set);
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

int needed(const Scene& scene, const std::string& name, const std::vector<std::size_t>& spans)
{
    const int cycles = cycles_needed(scene);
    if (!is_of_pause(name)) {
        return cycles;
    }
    return std::max(1, cycles - rests_in(judged_cycles(scene, spans)) - static_cast<int>(spans.size()));
}

/// With a pause of 0 there is nothing to judge, unless one was seen: then its duration is too long.
bool asked(const Scene& scene, const Subject& subject)
{
    const auto key = key_of(subject.measurand, subject.nominal);
    if (!key) {
        return false;
    }
    const bool none_due = subject.measurand == measurand::pause_duration && *key == 0.0;
    return !none_due || pause_seen(scene, subject.spans);
}

void add_if_asked(const Scene& scene, std::vector<Subject>& all, Subject subject)
{
    if (asked(scene, subject)) {
        const bool none_due = is_of_pause(subject.measurand) && subject.nominal.pause.duration_s == 0.0;
        subject.needed = none_due ? 1 : subject.needed;
        all.push_back(std::move(subject));
    }
}

void add_automatic(const Scene& scene, const Preset& preset, const std::string& name, std::vector<Subject>& all)
{
    const auto spans = spans_of(scene, preset, SpanKind::automatic);
    const auto groups = grouped(scene, spans, [&](const Preset& a, const Preset& b) { return same_for(name, a, b); });
    const bool otherwise = std::any_of(groups.begin(), groups.end(), [&](const std::vector<std::size_t>& group) {
        return !same_for(name, scene.spans[group.front()].set, preset);
    });
    const int due = needed(scene, name, spans);
    add_if_asked(scene, all, {name, &preset, "prescribed", preset, spans, due, false, true, !otherwise});
    // The return is measured to a band about the prescribed level: about another one it was not looked for.
    if (!otherwise || name == measurand::return_to_zero) {
        return;
    }
    for (const auto& group : groups) {
        const auto& set = scene.spans[group.front()].set;
        add_if_asked(scene, all, {name, &preset, "set", set, group, groups.size() == 1 ? due : 1, false, false, true});
    }
}

void add_ladder(const Scene& scene, const Preset& preset, std::vector<Subject>& all)
{
    for (const auto& group : grouped(scene, spans_of(scene, preset, SpanKind::ladder), same_throughout)) {
        for (const auto& name : measurands()) {
            const auto& set = scene.spans[group.front()].set;
            add_if_asked(scene, all, {name, &preset, "set", set, group, 1, true, false, true});
        }
    }
}

} // namespace

std::vector<const Cycle*> judged_cycles(const Scene& scene, const std::vector<std::size_t>& spans)
{
    std::vector<const Cycle*> cycles;
    for (const auto& cycle : scene.cycles) {
        const bool here = std::any_of(spans.begin(), spans.end(),
                                      [&](std::size_t position) { return scene.spans[position].index == cycle.span; });
        if (cycle.judged && here) {
            cycles.push_back(&cycle);
        }
    }
    return cycles;
}

int cycles_needed(const Scene& scene) { return scene.evidence->order->cycles * (has_unlike_cycle(scene) ? 2 : 1); }

bool pause_seen(const Scene& scene, const std::vector<std::size_t>& spans)
{
    const auto cycles = judged_cycles(scene, spans);
    return std::any_of(cycles.begin(), cycles.end(),
                       [](const Cycle* cycle) { return cycle->pause && !cycle->pause->cut() && !cycle->rest_follows; });
}

std::vector<Subject> subjects(const Scene& scene, const Preset& preset)
{
    std::vector<Subject> all;
    for (const auto& name : measurands()) {
        add_automatic(scene, preset, name, all);
    }
    add_ladder(scene, preset, all);
    return all;
}

} // namespace zeroline::verification
