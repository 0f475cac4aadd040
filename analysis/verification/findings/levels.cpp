#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/verification/criticals.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

metrology::Limits limits_in(const FindingBasis& basis, const Preset& nominal, const std::string& measurand)
{
    return limits_of(measurand, nominal, basis.order, basis.house);
}

bool away_from_zero(double level, signal::PhaseKind kind, const metrology::Limits& limits)
{
    return kind == kInsufflation ? limits.upper && level > *limits.upper : limits.lower && level < *limits.lower;
}

bool towards_zero(double level, signal::PhaseKind kind, const metrology::Limits& limits)
{
    return kind == kInsufflation ? limits.lower && level < *limits.lower : limits.upper && level > *limits.upper;
}

/// A level that is too strong, and what it is too strong for.
struct Over {
    const Cycle* cycle;
    signal::PhaseKind kind;
    double level, limit;
};

std::vector<Over> overs_in(const FindingBasis& basis, const Cycle& cycle)
{
    std::vector<Over> overs;
    const auto& span = span_of(basis.measured_trace, cycle);
    // A reading that stuck may have stuck on a ring: what it shows is no plateau.
    if (cycle.why_not_judged == "stuck-reading")
        return overs;
    for (const auto kind : {kInsufflation, kExsufflation}) {
        const auto& phase = phase_of(cycle, kind);
        // Nor is what a cut phase shows: it may be its overshoot only.
        if (!phase || !phase->plateau || phase->cut())
            continue;
        const auto limits =
            limits_in(basis, span.span.what == SpanKind::ladder ? span.set : *span.prescribed, pressure_of(kind));
        const double level = phase->plateau->value_cmH2O;
        if (away_from_zero(level, kind, limits) && std::abs(level) < kBeyondAnyUnit_cmH2O)
            overs.push_back({&cycle, kind, level, kind == kInsufflation ? *limits.upper : *limits.lower});
    }
    return overs;
}

std::vector<Value> short_of(const FindingBasis& basis, const Group& group, signal::PhaseKind kind)
{
    const auto limits = limits_in(basis, group.nominal, pressure_of(kind));
    std::vector<Value> off;
    for (const auto& value : plateaus(group.judged, kind))
        if (towards_zero(value.value, kind, limits) && is_outside(value, pressure_of(kind), limits))
            off.push_back(value);
    return off;
}

Findings phase_off(const FindingBasis& basis, const std::string& code, signal::PhaseKind kind)
{
    Findings all;
    const auto other = kind == kInsufflation ? kExsufflation : kInsufflation;
    for (const auto& group : basis.groups) {
        const auto off = short_of(basis, group, kind);
        if (off.empty())
            continue;
        const double nominal = setting_of(group.nominal, kind).pressure_cmH2O;
        const double mean = *mean_of(plateaus(group.judged, kind));
        const bool alone = short_of(basis, group, other).empty();
        all.push_back(
            finding(basis, group, code, Severity::caution,
                    {word_of(kind) + " pressure that falls short",
                     "its mean plateau is " + in_words(mean) + " cmH2O where " + in_words(nominal) +
                         " is wanted, outside limits in " + counted(off.size(), "cycle"),
                     alone ? "zero, plug and hose first; as the other phase is right, then this phase's own control, "
                             "valve or filter"
                           : "zero, plug and hose first; then the unit's blower, its filters and its setting"},
                    {{"mean_cmH2O", mean}, {"wanted_cmH2O", nominal}}, off));
    }
    return all;
}

struct Difference {
    std::string what;
    double prescribed, set;
};

void compare(std::vector<Difference>& all, const std::string& what, double prescribed, double set)
{
    if (std::abs(prescribed - set) > 1e-9)
        all.push_back({what, prescribed, set});
}

/// Pressures, durations, flow and oscillation; never the trigger, which is off for the check.
std::vector<Difference> differences(const Preset& prescribed, const Preset& set)
{
    std::vector<Difference> all;
    for (const auto kind : {kInsufflation, kExsufflation, kPause}) {
        const auto &wanted = setting_of(prescribed, kind), &found = setting_of(set, kind);
        compare(all, word_of(kind) + " pressure", wanted.pressure_cmH2O, found.pressure_cmH2O);
        compare(all, word_of(kind) + " duration", wanted.duration_s, found.duration_s);
    }
    const auto flow = [](const Preset& preset) { return preset.flow ? (*preset.flow == Flow::full ? 1.0 : 2.0) : 0.0; };
    if (prescribed.flow && set.flow)
        compare(all, "flow", flow(prescribed), flow(set));
    const auto frequency = [](const Preset& p) { return p.oscillation ? p.oscillation->frequency_hz : 0.0; };
    const auto amplitude = [](const Preset& p) { return p.oscillation ? p.oscillation->amplitude_cmH2O : 0.0; };
    compare(all, "oscillation frequency", frequency(prescribed), frequency(set));
    compare(all, "oscillation amplitude", amplitude(prescribed), amplitude(set));
    return all;
}

std::string in_one_line(const std::vector<Difference>& all)
{
    std::string words;
    for (const auto& difference : all) {
        words += words.empty() ? "" : "; ";
        if (difference.what == "flow")
            words += difference.set < difference.prescribed ? "flow is full instead of reduced"
                                                            : "flow is reduced instead of full";
        else
            words += difference.what + " is set to " + in_words(difference.set) + " instead of " +
                     in_words(difference.prescribed);
    }
    return words;
}

} // namespace

Findings over_pressure(const FindingBasis& basis)
{
    // Against vacuum a reading shows no such pressure.
    if (!absolute_sensor(basis).empty())
        return {};
    std::vector<Over> overs;
    for (const auto& cycle : basis.measured_trace.cycles) {
        const auto some = overs_in(basis, cycle);
        overs.insert(overs.end(), some.begin(), some.end());
    }
    if (overs.empty())
        return {};
    const auto& worst = *std::max_element(overs.begin(), overs.end(), [](const auto& a, const auto& b) {
        return std::abs(a.level - a.limit) < std::abs(b.level - b.limit);
    });
    const bool mistaken = !unit_mismatch(basis).empty();
    auto found = finding(
        "over-pressure", Severity::critical,
        {mistaken ? "a unit that delivers more than it may, or readings in another unit of pressure"
                  : "a unit that delivers more than it may",
         word_of(worst.kind) + " reached " + in_words(worst.level) + " cmH2O in cycle " +
             std::to_string(worst.cycle->index) + " and the limit is " + in_words(worst.limit) + " cmH2O",
         mistaken ? "keeping this unit out of use until the instrument is checked against a second gauge or the "
                    "run is repeated with another instrument; the unit's own display clears nothing"
                  : "keeping this unit out of use; look at the zero, at the setting and at the instrument "
                    "before measuring again"});
    const auto soft = soft_hose_end(basis);
    if ((!soft.empty() && !soft.front().touches.empty()) || !breathing(basis).empty())
        found.text.insert(0, "Is someone connected? Take the hose off the person. ");
    found.figures = {{"level_cmH2O", worst.level}, {"limit_cmH2O", worst.limit}};
    for (const auto& over : overs)
        name_cycles(found, std::vector<const Cycle*>{over.cycle});
    return {found};
}

Findings insufflation_off(const FindingBasis& basis) { return phase_off(basis, "insufflation-off", kInsufflation); }

Findings exsufflation_off(const FindingBasis& basis) { return phase_off(basis, "exsufflation-off", kExsufflation); }

Findings settings_differ(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups) {
        const auto off = differences(*group.prescribed, group.set);
        if (group.ladder || off.empty())
            continue;
        auto found = finding(basis, group, "settings-differ", Severity::caution,
                             {"a unit set otherwise than prescribed", in_one_line(off),
                              "asking who may change it; it is no fault of the unit, and it is not changed without "
                              "authority"});
        for (const auto& difference : off)
            found.figures["set " + difference.what] = difference.set;
        all.push_back(found);
    }
    return all;
}

Findings display_differs(const FindingBasis& basis)
{
    const auto* run = basis.measured_trace.evidence->run;
    Findings all;
    if (!run || !run->displayed)
        return all;
    for (const auto& shown : *run->displayed)
        for (const auto& group : basis.groups)
            for (const auto kind : {kInsufflation, kExsufflation}) {
                const auto& value = kind == kInsufflation ? shown.insufflation_cmH2O : shown.exsufflation_cmH2O;
                const auto mean = mean_of(plateaus(group.judged, kind));
                const bool judged = shown.shows == Shows::live || shown.shows == Shows::cycle_peak;
                if (group.ladder || group.preset != shown.preset || !value || !mean || !judged)
                    continue;
                const auto& name =
                    kind == kInsufflation ? measurand::displayed_insufflation : measurand::displayed_exsufflation;
                const auto limits = tolerance_of(name, basis.order, basis.house).limits(*mean);
                if (metrology::margin(*value, limits) >= 0.0)
                    continue;
                all.push_back(
                    finding(basis, group, "display-differs", Severity::caution,
                            {"a unit whose own gauge is off",
                             "it displays " + in_words(*value) + " cmH2O in " + word_of(kind) + " and " +
                                 in_words(*mean) + " cmH2O was measured",
                             "reading it again in a long hold; then an adjustment by authorised service. Whoever sets "
                             "the unit by its display sets it wrong"},
                            {{"displayed_cmH2O", *value}, {"measured_cmH2O", *mean}}));
            }
    return all;
}

} // namespace zeroline::verification
