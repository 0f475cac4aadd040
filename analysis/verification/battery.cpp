// A unit on battery against the same unit on mains.

#include "analysis/verification/judgement.hpp"

#include "acquisition/trace/units.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/verification/budgets.hpp"
#include "analysis/verification/comparisons.hpp"
#include "analysis/verification/figures.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

using metrology::Distribution;
using metrology::Outcome;

constexpr std::size_t kFewestPlateaus = 2; ///< a scatter needs two

std::vector<double> plateaus_in(const MeasuredTrace& measured_trace, const std::vector<std::size_t>& spans,
                                const std::string& measurand)
{
    std::vector<double> all;
    for (const auto* cycle : judged_cycles(measured_trace, spans)) {
        if (const auto found = cycle->quantities.find(measurand); found != cycle->quantities.end()) {
            all.push_back(found->second.value);
        }
    }
    return all;
}

bool set_alike(const MeasuredTrace& measured_trace, const PowerSpans& spans, const std::string& measurand)
{
    const auto set = [&](std::size_t position) { return nominal_of(measurand, measured_trace.spans[position].set); };
    const auto as_first = [&](std::size_t position) { return set(position) == set(spans.mains.front()); };
    return std::all_of(spans.mains.begin(), spans.mains.end(), as_first) &&
           std::all_of(spans.battery.begin(), spans.battery.end(), as_first);
}

/// Both plateaus are read by one instrument at one pressure: its calibration is in neither. What may have moved between
/// them is the zero; each is read in the sensor's steps.
std::vector<metrology::Contribution> budget_of_difference(const MeasuredTrace& measured_trace,
                                                          const std::vector<double>& mains,
                                                          const std::vector<double>& battery)
{
    const auto scatter = [](const std::string& name, const std::vector<double>& values) -> metrology::Contribution {
        const auto n = static_cast<double>(values.size());
        return {name, signal::standard_deviation(values).value_or(0.0) / std::sqrt(n), Distribution::student, n - 1.0};
    };
    const auto& evidence = *measured_trace.evidence;
    std::vector<metrology::Contribution> budget{
        scatter("cycles on mains", mains),
        scatter("cycles on battery", battery),
        {"zero drift", std::abs(measured_trace.zero.drift.value_or(evidence.house.zero_drift_cmH2O)),
         Distribution::rectangular}};
    if (evidence.instrument != nullptr) {
        const auto& range = evidence.instrument->range;
        const double half_step = trace::to_cmH2O(0.5 * range.resolution, range.unit);
        budget.push_back({"resolution on mains", half_step, Distribution::rectangular});
        budget.push_back({"resolution on battery", half_step, Distribution::rectangular});
    }
    return budget;
}

void put_difference(Judgement& judgement, const MeasuredTrace& measured_trace, const std::vector<double>& mains,
                    const std::vector<double>& battery)
{
    judgement.budget = budget_of_difference(measured_trace, mains, battery);
    const auto expanded = metrology::combine(judgement.budget);
    judgement.worst = judgement.mean = *signal::mean(battery) - *signal::mean(mains);
    judgement.expanded_uncertainty = judgement.mean_uncertainty = expanded.expanded_uncertainty;
    judgement.coverage_factor = expanded.coverage_factor;
    judgement.ratio = metrology::ratio(judgement.limits, expanded.expanded_uncertainty);
    judgement.probability_outside = metrology::probability_outside(*judgement.worst, expanded.spread, judgement.limits);
}

std::string sentence_of_difference(const Judgement& judgement)
{
    return figure(*judgement.worst) + " cmH2O from mains to battery, limits " +
           words_of(judgement.limits, judgement.unit) + ", U " + figure(*judgement.expanded_uncertainty) + " cmH2O.";
}

void decide_difference(Judgement& judgement, const MeasuredTrace& measured_trace, const Hindrance* hindrance)
{
    const int needed = cycles_needed(measured_trace);
    judgement.verdict = Outcome::incomplete;
    if (hindrance != nullptr) {
        judgement.reason = hindrance->reason;
    } else if (!judgement.worst) {
        judgement.reason = too_few_cycles(measured_trace, judgement.n, needed);
    } else if (metrology::too_uncertain(*judgement.worst, *judgement.expanded_uncertainty, judgement.limits)) {
        judgement.reason =
            Reason{"too-uncertain", "its uncertainty is larger than its tolerance, so it says neither pass nor fail: " +
                                        sentence_of_difference(judgement)};
    } else {
        const auto outcome = metrology::decide(*judgement.worst, *judgement.expanded_uncertainty, judgement.limits,
                                               measured_trace.evidence->order->decision_rule);
        if (!metrology::is_fail(outcome) && judgement.n < needed) {
            judgement.reason = too_few_cycles(measured_trace, judgement.n, needed);
            return;
        }
        judgement.verdict = outcome;
        if (outcome != Outcome::pass) {
            judgement.reason = Reason{metrology::is_fail(outcome) ? "outside-limits" : "near-limit",
                                      sentence_of_difference(judgement)};
        }
    }
}

} // namespace

std::vector<Judgement> judge_battery(const MeasuredTrace& measured_trace, const std::vector<Hindrance>& all,
                                     const Preset& preset)
{
    const auto spans = spans_by_power(measured_trace, preset);
    std::vector<Judgement> judged;
    if (spans.mains.empty() || spans.battery.empty()) {
        return judged;
    }
    for (const auto& [pressure, difference] :
         {std::pair{measurand::insufflation_pressure, measurand::battery_insufflation},
          {measurand::exsufflation_pressure, measurand::battery_exsufflation}}) {
        if (!set_alike(measured_trace, spans, pressure)) {
            continue;
        }
        const auto& house = measured_trace.evidence->house;
        const auto mains = plateaus_in(measured_trace, spans.mains, pressure);
        const auto battery = plateaus_in(measured_trace, spans.battery, pressure);
        Judgement one;
        one.measurand = difference;
        one.preset = preset.name;
        one.against = "measured";
        one.unit = "cmH2O";
        one.limits = {-house.battery_cmH2O, house.battery_cmH2O};
        one.basis = house.label();
        one.n = static_cast<int>(std::min(mains.size(), battery.size()));
        if (mains.size() >= kFewestPlateaus && battery.size() >= kFewestPlateaus) {
            put_difference(one, measured_trace, mains, battery);
        }
        decide_difference(one, measured_trace, first_hindrance(all, pressure, preset.name));
        judged.push_back(std::move(one));
    }
    return judged;
}

} // namespace zeroline::verification
