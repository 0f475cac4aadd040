#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/verification/findings/wording.hpp"
#include "analysis/verification/treatment.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

constexpr double kFaintest_cmH2O = 5.0; // the lowest pressure a unit can be set to
constexpr double kLongPause_s = 10.0;
constexpr double kLongPauses = 3.0; // times the prescribed pause

bool has_a_phase(const MeasuredSpan& span)
{
    return std::any_of(span.phases.begin(), span.phases.end(), [](const auto& phase) { return phase.kind != kPause; });
}

/// kPa or psi read as cmH2O makes the plateaus this small: unit-mismatch names it.
bool explained_by_a_unit(const FindingBasis& basis) { return !unit_mismatch(basis).empty(); }

Findings missing(const FindingBasis& basis, signal::PhaseKind kind)
{
    std::vector<int> cycles;
    bool counts = false;
    if (basis.lower_end.seen && kind == kExsufflation)
        return {}; // the sensor does not show that side
    for (const auto& one : basis.measured_trace.missing)
        if (one.which == kind) {
            cycles.push_back(one.cycle);
            counts = counts || one.counts;
        }
    if (cycles.empty())
        return {};
    const auto other = word_of(kind == kInsufflation ? kExsufflation : kInsufflation);
    auto found = finding("missing-" + word_of(kind), Severity::caution,
                         {"a unit that leaves " + word_of(kind) + " out",
                          counted(cycles.size(), "time") + " " + other + " had no " + word_of(kind) + " beside it",
                          std::string(counts ? "the run again" : "it again: it was in a cycle that is not judged") +
                              "; a valve that sticks, an alarm of the unit and a phase time of zero look like this"});
    found.figures = {{"count", static_cast<double>(cycles.size())}};
    name_cycles(found, cycles);
    return {found};
}

/// A stretch at rest: a pause, or a span's end.
struct Rest {
    double from_s = 0.0, length_s = 0.0;
    bool last = false;
    int cycle = 0;
};

double length_of(const signal::Phase& pause, const MeasuredSpan& span)
{
    // A pause that a gap cut short ended at the gap, for all that was seen.
    const bool last = &pause == &span.phases.back();
    return pause.duration_s().value_or((last ? span.span.to_s : pause.last_time_s) - pause.start_s());
}

bool is_rest_of_series(const FindingBasis& basis, const MeasuredSpan& span, const signal::Phase& pause)
{
    return std::any_of(basis.measured_trace.cycles.begin(), basis.measured_trace.cycles.end(), [&](const Cycle& cycle) {
        return cycle.span == span.index && cycle.rest_follows && cycle.pause && cycle.pause->first == pause.first;
    });
}

std::vector<Rest> long_rests(const FindingBasis& basis, const MeasuredSpan& span)
{
    const double limit_s = std::max(kLongPause_s, kLongPauses * span.set.pause.duration_s);
    std::vector<Rest> rests;
    for (std::size_t i = 0; i < span.phases.size(); ++i) {
        const auto& phase = span.phases[i];
        if (phase.kind != kPause || phase.cut_begin || is_rest_of_series(basis, span, phase))
            continue;
        const double length_s = length_of(phase, span);
        if (length_s > limit_s)
            rests.push_back({phase.start_s(), length_s, i + 1 == span.phases.size(), 0});
    }
    return rests;
}

std::size_t whole_cycles(const FindingBasis& basis, const MeasuredSpan& span)
{
    return static_cast<std::size_t>(
        std::count_if(basis.measured_trace.cycles.begin(), basis.measured_trace.cycles.end(), [&](const Cycle& cycle) {
            return cycle.span == span.index && cycle.insufflation && cycle.exsufflation;
        }));
}

/// A rest at the end of a span is the end of a programme where the unit has done what it was to do: a whole number of
/// its series, or at least the cycles the order asks for. Sooner, it waits for a breath.
bool programme_done(const FindingBasis& basis, const MeasuredSpan& span)
{
    const auto done = whole_cycles(basis, span);
    const auto& series = span.set.series;
    if (series && series->breaths > 0 && done >= static_cast<std::size_t>(series->breaths) &&
        done % static_cast<std::size_t>(series->breaths) == 0)
        return true;
    return done >= static_cast<std::size_t>(std::max(basis.order.cycles + basis.order.lead_cycles, 2));
}

/// A run ends its span with the press that follows the last pause, so that this pause is seen whole: that is no loss.
bool closes(const MeasuredSpan& span, std::size_t i)
{
    constexpr double kJustBegun = 0.5; // of its setting
    const auto& phase = span.phases[i];
    return i > 0 && i + 1 == span.phases.size() && span.phases[i - 1].kind == kPause && !phase.cut_begin &&
           span.span.to_s - phase.start_s() < kJustBegun * setting_of(span.set, phase.kind).duration_s;
}

} // namespace

Findings no_cycling(const FindingBasis& basis)
{
    Findings all;
    if (explained_by_a_unit(basis))
        return all;
    const bool faint = basis.measured_trace.larger_plateau_cmH2O < kFaintest_cmH2O;
    for (const auto& group : basis.groups)
        for (const auto* span : group.spans) {
            if (has_a_phase(*span) && !faint)
                continue;
            auto found =
                finding(basis, group, "no-cycling", Severity::caution,
                        {"a unit that did not cycle, or a hose that is not on the sensor",
                         has_a_phase(*span) ? "no pressure reached " + in_words(kFaintest_cmH2O) + " cmH2O"
                                            : "no phase was seen in the whole span",
                         "plug, sensing line and the unit's own screen; a breath trigger that is on waits for a breath "
                         "that never comes"});
            found.touches = basis.all_measurands();
            found.times_s = {span->span.from_s};
            found.figures = {{"larger_plateau_cmH2O", basis.measured_trace.larger_plateau_cmH2O}};
            all.push_back(found);
            break;
        }
    return all;
}

Findings missing_insufflation(const FindingBasis& basis) { return missing(basis, kInsufflation); }

Findings missing_exsufflation(const FindingBasis& basis) { return missing(basis, kExsufflation); }

Findings reversed_order(const FindingBasis& basis)
{
    // Where the manual toggles came the other way round too, the sensor may be it: swapped-ports says so.
    if (!swapped_ports(basis).empty())
        return {};
    Findings all;
    for (const auto& group : basis.groups)
        for (const auto* span : group.spans) {
            if (!span->reversed)
                continue;
            auto found = finding(basis, group, "reversed-order", Severity::critical,
                                 {"a unit that begins with the wrong phase",
                                  "in most cycles exsufflation came before insufflation",
                                  "keeping this unit out of use: valve or control works the wrong way round"});
            found.times_s = {span->span.from_s};
            all.push_back(found);
            break;
        }
    return all;
}

Findings long_pause(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups)
        for (const auto* span : group.spans)
            for (const auto& rest : long_rests(basis, *span)) {
                if (rest.last && programme_done(basis, *span))
                    continue;
                auto found = finding(
                    basis, group, "long-pause", Severity::caution,
                    {"a unit that waits for a breath",
                     "it rested for " + in_words(rest.length_s, 1) + " s where a pause of " +
                         in_words(group.nominal.pause.duration_s, 1) + " s is set",
                     "the breath trigger switched off, which a blocked hose can never set off, and the run again"});
                found.touches = {measurand::pause_duration};
                found.times_s = {rest.from_s};
                found.figures = {{"pause_s", rest.length_s}};
                all.push_back(found);
            }
    return all;
}

Findings series_ended(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups)
        for (const auto* span : group.spans)
            for (const auto& rest : long_rests(basis, *span)) {
                if (!rest.last || !programme_done(basis, *span))
                    continue;
                auto found = finding(basis, group, "series-ended", Severity::note,
                                     {"the end of a programmed series",
                                      "after " + counted(whole_cycles(basis, *span), "cycle") +
                                          " the unit rested for " + in_words(rest.length_s, 1) + " s and no more came",
                                      "nothing, if the unit is programmed so: no phase is missing"});
                found.times_s = {rest.from_s};
                all.push_back(found);
            }
    return all;
}

/// Of what is prescribed, whatever was measured: the prescriber decides, and is asked.
Findings series_plan(const FindingBasis& basis)
{
    Findings all;
    for (const auto& preset : basis.order.presets) {
        const auto plan = treatment_plan(preset);
        const bool long_cycling = preset.series && plan.cycling_s >= kLongestCycling_s;
        const bool short_rest = preset.series && plan.count > 1 && plan.rest_s < kShortestRest_s;
        if (!long_cycling && !short_rest)
            continue;
        const auto why = long_cycling ? "it cycles for " + in_words(plan.cycling_s / 60.0, 1) +
                                            " min without a rest and under " + in_words(kLongestCycling_s / 60.0) +
                                            " min are usual"
                                      : "the rest between two series is " + in_words(plan.rest_s) + " s and " +
                                            in_words(kShortestRest_s) + " to 30 s are usual";
        auto found = finding("series-plan", Severity::caution,
                             {"a series that was meant otherwise", why,
                              "the prescription, with whoever wrote it; nothing is changed here"});
        found.preset = preset.name;
        found.figures = {{"cycling_s", plan.cycling_s}, {"rest_s", plan.rest_s}, {"whole_s", plan.whole_s}};
        all.push_back(std::move(found));
    }
    return all;
}

Findings cut_phase(const FindingBasis& basis)
{
    std::vector<double> times;
    for (const auto& group : basis.groups)
        for (const auto* span : group.spans)
            for (std::size_t i = 0; i < span->phases.size(); ++i)
                if (span->phases[i].kind != kPause && span->phases[i].cut() && !closes(*span, i))
                    times.push_back(span->phases[i].start_s());
    if (times.empty())
        return {};
    auto found = finding("cut-phase", Severity::note,
                         {"a span that begins or ends inside a phase",
                          counted(times.size(), "phase") + " could not be seen whole",
                          "marking the span from rest to rest; a cut phase is not judged"});
    found.times_s = times;
    return {found};
}

} // namespace zeroline::verification
