#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/signal/shape.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace zeroline::verification {

namespace {

// A unit of pressure taken for another (hPa for cmH2O, 1.97 %, is within every tolerance and cannot be seen here).
struct MistakenUnits {
    double ratio; ///< reading over pressure
    const char* words;
};
constexpr std::array<MistakenUnits, 9> kMistaken{{{98.0665, "Pa read as cmH2O"},
                                                  {0.0980665, "kPa read as cmH2O"},
                                                  {0.735559, "mmHg read as cmH2O"},
                                                  {0.393701, "inH2O read as cmH2O"},
                                                  {0.0142233, "psi read as cmH2O"},
                                                  {1.35951, "cmH2O read as mmHg"},
                                                  {2.54, "cmH2O read as inH2O"},
                                                  {10.19716, "cmH2O read as kPa"},
                                                  {70.30696, "cmH2O read as psi"}}};
constexpr double kUnitsAgree = 0.03;
// With a display that shows the ratio too, a unit that is itself off by this much; without any display, low readings
// by this much: what a unit's own error and a mistaken unit make together.
constexpr double kOffWithDisplay = 0.15, kOffWithoutDisplay = 0.12, kSameRatio = 0.04;
constexpr double kHumSure = 1e-6;      // probability that noise alone shows it
constexpr double kHumFrom_cmH2O = 0.1; // below, it is lost in the ripple of a healthy unit
constexpr double kLongestHumWindow_s = 5.0;

std::optional<double> ratio_in(const Group& group, signal::PhaseKind kind)
{
    const auto mean = median_of(plateaus(group.whole, kind));
    const double set = setting_of(group.set, kind).pressure_cmH2O;
    return mean && set != 0.0 ? std::optional(*mean / set) : std::nullopt;
}

/// What the unit displayed of one phase and what was measured then; none where it shows no measured value.
struct Shown {
    double displayed, measured, within; ///< cmH2O; `within`: tolerance of the display
};

std::vector<Shown> shown_in(const FindingBasis& basis, const Group& group)
{
    std::vector<Shown> all;
    const auto* run = basis.measured_trace.evidence->run;
    if (!run || !run->displayed || group.ladder)
        return all;
    for (const auto& one : *run->displayed)
        for (const auto kind : {kInsufflation, kExsufflation}) {
            const auto& value = kind == kInsufflation ? one.insufflation_cmH2O : one.exsufflation_cmH2O;
            const auto mean = median_of(plateaus(group.whole, kind));
            if (one.preset != group.preset || (one.shows != Shows::live && one.shows != Shows::cycle_peak) || !value ||
                !mean || *value == 0.0 || *mean == 0.0)
                continue;
            const auto limits = tolerance_of(kind == kInsufflation ? measurand::displayed_insufflation
                                                                   : measurand::displayed_exsufflation,
                                             basis.order, basis.house)
                                    .limits(*mean);
            all.push_back({*value, *mean, metrology::margin(*mean, limits)});
        }
    return all;
}

/// The unit's own gauge shows what was measured, and not what that would be in the other unit of pressure.
bool gauge_agrees(const std::vector<Shown>& shown, double ratio)
{
    return !shown.empty() && std::all_of(shown.begin(), shown.end(), [ratio](const Shown& one) {
        const double off = std::abs(one.displayed - one.measured);
        return off <= one.within && off < std::abs(one.displayed - one.measured / ratio);
    });
}

/// The unit's own gauge shows what the readings would be in the other unit of pressure.
bool gauge_shows(const FindingBasis& basis, const std::vector<Shown>& shown, double ratio)
{
    return shown.size() >= 2 && std::all_of(shown.begin(), shown.end(), [&](const Shown& one) {
               const double off = std::abs(one.displayed - one.measured / ratio);
               return off <= kUnitsAgree * std::abs(one.displayed) + 0.5 * basis.order.unit.display_step_cmH2O;
           });
}

bool fits(const Group& group, double ratio, double within)
{
    const auto insufflation = ratio_in(group, kInsufflation), exsufflation = ratio_in(group, kExsufflation);
    return insufflation && exsufflation && std::abs(*insufflation / ratio - 1.0) <= within &&
           std::abs(*exsufflation / ratio - 1.0) <= within;
}

bool by_one_ratio(const Group& group)
{
    return std::abs(*ratio_in(group, kInsufflation) / *ratio_in(group, kExsufflation) - 1.0) <= kSameRatio;
}

bool is_mistaken(const FindingBasis& basis, const Group& group, double ratio)
{
    const auto shown = shown_in(basis, group);
    if (fits(group, ratio, kUnitsAgree))
        return true;
    if (fits(group, ratio, kOffWithDisplay) && gauge_shows(basis, shown, ratio))
        return true;
    return shown.empty() && ratio < 1.0 && fits(group, ratio, kOffWithoutDisplay) && by_one_ratio(group);
}

const MistakenUnits* mistaken_in(const FindingBasis& basis, const Group& group)
{
    const auto at = std::find_if(kMistaken.begin(), kMistaken.end(),
                                 [&](const MistakenUnits& units) { return is_mistaken(basis, group, units.ratio); });
    return at == kMistaken.end() ? nullptr : &*at;
}

/// One instrument reads in one unit: where any gauge agrees with it, it is not mistaken anywhere.
bool refuted(const FindingBasis& basis, double ratio)
{
    return std::any_of(basis.groups.begin(), basis.groups.end(),
                       [&](const Group& group) { return gauge_agrees(shown_in(basis, group), ratio); });
}

/// The longest quiet stretch: the open port, else a pause.
signal::Samples quiet(const FindingBasis& basis)
{
    const auto cut = [&](double from_s, double to_s) {
        return basis.samples_between(from_s, std::min(to_s, from_s + kLongestHumWindow_s));
    };
    if (basis.measured_trace.evidence->run)
        for (const auto& span : basis.measured_trace.evidence->run->spans)
            if (span.what == SpanKind::zero_before || span.what == SpanKind::zero_after)
                return cut(span.from_s, span.to_s);
    for (const auto& group : basis.groups)
        for (const auto* cycle : group.whole)
            if (cycle->pause && cycle->pause->plateau)
                return cut(cycle->pause->plateau->window_from_s, cycle->pause->plateau->window_to_s);
    return {};
}

Finding of_runs(const FindingBasis& basis, const std::string& code, Severity severity, const Wording& words,
                const std::vector<Exclusion>& stretches)
{
    auto found = finding(code, severity, words);
    for (const auto& stretch : stretches) {
        found.times_s.push_back(stretch.from_s);
        name_cycles(found, basis.cycles_between(stretch.from_s, stretch.to_s));
    }
    return found;
}

std::vector<Exclusion> excluded_by(const FindingBasis& basis, const std::string& code)
{
    std::vector<Exclusion> some;
    std::copy_if(basis.exclusions.begin(), basis.exclusions.end(), std::back_inserter(some),
                 [&](const Exclusion& e) { return e.code == code; });
    return some;
}

} // namespace

Findings one_sided(const FindingBasis& basis)
{
    if (!basis.lower_end.seen)
        return {};
    auto found = finding(
        "one-sided", Severity::caution,
        {"a sensor that reads one side only",
         "every exsufflation shows the same flat " + in_words(basis.lower_end.value_cmH2O) + " cmH2O without any noise",
         "a sensor for both signs, and a check that its low port is open"});
    found.touches = basis.all_measurands();
    const auto read = [](const std::string& name) {
        return name == measurand::insufflation_pressure || name == measurand::displayed_insufflation;
    };
    found.touches.erase(std::remove_if(found.touches.begin(), found.touches.end(), read), found.touches.end());
    found.times_s = basis.lower_end.times_s;
    found.figures = {{"lower_end_cmH2O", basis.lower_end.value_cmH2O}};
    return {found};
}

Findings unit_mismatch(const FindingBasis& basis)
{
    for (const auto& group : basis.groups) {
        const auto* units = mistaken_in(basis, group);
        if (!units || refuted(basis, units->ratio))
            continue;
        auto found =
            finding("unit-mismatch", Severity::caution,
                    {std::string("a unit of pressure taken for another (") + units->words + ")",
                     "both pressures are off by " + in_words(*ratio_in(group, kInsufflation), 4) +
                         " and the ratio of the two units is " + in_words(units->ratio, 4),
                     "the unit on the sensor's own display or in its manual against the one in the instrument file; a "
                     "second gauge, or the run again with another instrument, tells for certain"});
        found.touches = basis.pressure_measurands();
        found.figures = {{"ratio", *ratio_in(group, kInsufflation)}, {"ratio_of_units", units->ratio}};
        return {found};
    }
    return {};
}

Findings clipped(const FindingBasis& basis)
{
    const auto stretches = excluded_by(basis, "clipped");
    if (stretches.empty())
        return {};
    auto found = of_runs(basis, "clipped", Severity::caution,
                         {"a sensor at the end of its range",
                          "readings stand still at their extreme in " + counted(stretches.size(), "place") +
                              " where noise should move them",
                          "a sensor of a wider range (100 cmH2O to either side), and whether its output is limited"},
                         stretches);
    const auto at = basis.samples_between(stretches.front().from_s, stretches.front().to_s);
    if (at.size() > 0)
        found.figures["reading_cmH2O"] = at.pressure_cmH2O.front();
    return {found};
}

Findings stuck_reading(const FindingBasis& basis)
{
    const auto stretches = excluded_by(basis, "stuck-reading");
    if (stretches.empty())
        return {};
    const auto longest = std::max_element(stretches.begin(), stretches.end(), [](const auto& a, const auto& b) {
        return a.to_s - a.from_s < b.to_s - b.from_s;
    });
    auto found = of_runs(basis, "stuck-reading", Severity::caution,
                         {"an instrument that repeats one reading",
                          "the same reading came for " + in_words(longest->to_s - longest->from_s) +
                              " s, to the last digit, where the pressure or its noise must have moved",
                          "switching the instrument off and on, its hold or averaging setting, and the run again"},
                         stretches);
    found.figures = {{"longest_s", longest->to_s - longest->from_s}};
    return {found};
}

Findings resolution_limited(const FindingBasis& basis)
{
    const double step = resolution_cmH2O(basis.measured_trace);
    if (step <= 0.0 || noise_shows(basis.measured_trace) || basis.measured_trace.noise_cmH2O <= 0.0)
        return {};
    const auto& runs = basis.measured_trace.readings.constant;
    const bool still = std::any_of(runs.begin(), runs.end(), [](const auto& run) { return run.length_s() > 1.0; });
    if (!still)
        return {};
    auto found = finding("resolution-limited", Severity::note,
                         {"a resolution coarser than the noise",
                          "readings repeat for more than 1 s and one step is " + in_words(step, 3) + " cmH2O",
                          "a finer output format of the instrument, if it has one"});
    found.figures = {{"step_cmH2O", step}, {"noise_cmH2O", basis.measured_trace.noise_cmH2O}};
    return {found};
}

Findings hum(const FindingBasis& basis)
{
    const auto seen = signal::hum(quiet(basis));
    if (!seen || seen->amplitude_cmH2O < kHumFrom_cmH2O || seen->chance > kHumSure)
        return {};
    auto found =
        finding("hum", Severity::caution,
                {"mains hum in the signal",
                 "the resting signal carries " + in_words(seen->amplitude_cmH2O) + " cmH2O at " +
                     in_words(seen->mains_hz, 0) + " Hz",
                 "another supply or earth for the sensor, a shorter shielded cable, and distance from the unit's "
                 "power supply"});
    found.figures = {
        {"mains_hz", seen->mains_hz}, {"amplitude_cmH2O", seen->amplitude_cmH2O}, {"seen_at_hz", seen->seen_at_hz}};
    return {found};
}

} // namespace zeroline::verification
