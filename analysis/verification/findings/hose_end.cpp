#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/verification/findings/breath.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

std::vector<signal::PhaseKind> asked_of(const MeasuredSpan& span)
{
    std::vector<signal::PhaseKind> asked;
    for (const auto step : span.span.asked)
        if (step != Step::pause)
            asked.push_back(step == Step::insufflation ? kInsufflation : kExsufflation);
    return asked;
}

std::vector<signal::PhaseKind> seen_in(const MeasuredSpan& span)
{
    std::vector<signal::PhaseKind> seen;
    for (const auto& phase : span.phases)
        if (phase.kind != kPause)
            seen.push_back(phase.kind);
    return seen;
}

/// Both signs were asked for, and every phase came the other way round.
bool all_turned(const MeasuredSpan& span)
{
    const auto asked = asked_of(span), seen = seen_in(span);
    const auto has = [&](signal::PhaseKind kind) { return std::find(asked.begin(), asked.end(), kind) != asked.end(); };
    if (asked.size() != seen.size() || !has(kInsufflation) || !has(kExsufflation))
        return false;
    return std::equal(asked.begin(), asked.end(), seen.begin(), [](auto a, auto s) { return a != s; });
}

} // namespace

Findings swapped_ports(const FindingBasis& basis)
{
    std::vector<double> times;
    for (const auto& span : basis.measured_trace.spans)
        if (span.span.what == SpanKind::manual && all_turned(span) && !breathes_by_hand(basis, span))
            times.push_back(span.span.from_s);
    if (times.empty())
        return {};
    auto found =
        finding("swapped-ports", Severity::critical,
                {"a sensor connected the wrong way round, or a unit that blows for suction",
                 "by hand, every insufflation came as a negative pressure and every exsufflation as a positive one",
                 "feeling at the open hose which way the unit blows; if it is right, move the sensing line to the "
                 "sensor's other port and repeat; if not, keep the unit out of use. Signs are never turned silently"});
    found.touches = basis.all_measurands();
    found.times_s = times;
    return {found};
}

Findings plug_off(const FindingBasis& basis)
{
    Findings all;
    for (const auto& stretch : basis.exclusions) {
        if (stretch.code != "plug-off")
            continue;
        if (all.empty())
            all.push_back(
                finding("plug-off", Severity::caution,
                        {"a plug that came off",
                         "the pressure collapsed in the middle of a phase and the next phase did not build up",
                         "a plug that sits tight, the unit in its pause while it is put back, and the run again if too "
                         "few cycles are left"}));
        all.front().times_s.push_back(stretch.from_s);
        name_cycles(all.front(), basis.cycles_between(stretch.from_s, stretch.to_s));
    }
    return all;
}

Findings one_cycle_unlike(const FindingBasis& basis)
{
    Findings all;
    for (const auto& cycle : basis.measured_trace.cycles) {
        if (cycle.why_not_judged != "one-cycle-unlike")
            continue;
        auto found = finding("one-cycle-unlike", Severity::caution,
                             {"one cycle unlike the others, the hose touched",
                              "cycle " + std::to_string(cycle.index) +
                                  " alone lies outside its limits, and the others agree with each other",
                              "as many cycles again with hands off hose and plug; it is left out once for this work "
                              "order, a second such cycle is the unit's"});
        found.preset = cycle.preset;
        found.times_s = {cycle.start_s};
        name_cycles(found, std::vector<const Cycle*>{&cycle});
        all.push_back(found);
    }
    return all;
}

/// The set-up was shut in by itself and did not hold: what falls short in the run is not the unit's to answer for.
Findings set_up_leaks(const FindingBasis& basis)
{
    const auto& leaks = basis.measured_trace.leaks;
    const double limit = basis.house.leak_cmH2O_per_s;
    const auto worst = std::max_element(leaks.begin(), leaks.end(), [](const LeakRate& a, const LeakRate& b) {
        return a.loss_cmH2O_s < b.loss_cmH2O_s;
    });
    if (worst == leaks.end() || worst->loss_cmH2O_s <= limit)
        return {};
    auto found =
        finding("set-up-leaks", Severity::caution,
                {"a leak in the set-up",
                 "without the unit it lost " + in_words(worst->loss_cmH2O_s) + " cmH2O/s from " +
                     in_words(worst->from_cmH2O, 1) + " cmH2O and " + in_words(limit) + " cmH2O/s are allowed",
                 "plug, tee, hose and sensing line, one after the other, and the leak test and the run again"});
    found.touches = {measurand::insufflation_pressure, measurand::exsufflation_pressure};
    found.figures = {{"loss_cmH2O_per_s", worst->loss_cmH2O_s}, {"limit_cmH2O_per_s", limit}};
    return {found};
}

} // namespace zeroline::verification
