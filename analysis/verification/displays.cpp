#include "acquisition/trace/units.hpp"
#include "analysis/verification/judgement.hpp"
#include <cmath>

#include "analysis/signal/statistics.hpp"
#include "analysis/verification/budgets.hpp"
#include "analysis/verification/figures.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

using metrology::Distribution;
using metrology::Outcome;

const Displayed* entry_of(const Evidence& evidence, const std::string& preset)
{
    if (evidence.run == nullptr || !evidence.run->displayed) {
        return nullptr;
    }
    const auto& all = *evidence.run->displayed;
    const auto it = std::find_if(all.begin(), all.end(), [&](const Displayed& d) { return d.preset == preset; });
    return it == all.end() ? nullptr : &*it;
}

bool is_judged(Shows shows) { return shows == Shows::live || shows == Shows::cycle_peak; }

/// What was measured that a display is held against.
struct Measured {
    std::vector<const Cycle::Quantity*> plateaus;
    std::vector<double> values;
    std::vector<double> peaks;
};

Measured measured_of(const MeasuredTrace& measured_trace, const Preset& preset, bool insufflation)
{
    std::vector<std::size_t> spans;
    for (std::size_t i = 0; i < measured_trace.spans.size(); ++i) {
        if (measured_trace.spans[i].span.what == SpanKind::automatic && measured_trace.spans[i].prescribed == &preset) {
            spans.push_back(i);
        }
    }
    const auto& name = insufflation ? measurand::insufflation_pressure : measurand::exsufflation_pressure;
    Measured measured;
    for (const auto* cycle : judged_cycles(measured_trace, spans)) {
        const auto it = cycle->quantities.find(name);
        if (it != cycle->quantities.end()) {
            measured.plateaus.push_back(&it->second);
            measured.values.push_back(it->second.value);
            const auto& phase = insufflation ? cycle->insufflation : cycle->exsufflation;
            measured.peaks.push_back(phase->peak_cmH2O.value_or(it->second.value));
        }
    }
    return measured;
}

/// A display of the cycle's peak may show anything from the plateau to the peak: units smooth what they show, and how
/// much is not known (docs/decisions/displayed-peak.md).
metrology::Limits widened_to_peak(metrology::Limits limits, double mean_plateau, double mean_peak)
{
    if (limits.upper && mean_peak > mean_plateau) {
        *limits.upper += mean_peak - mean_plateau;
    }
    if (limits.lower && mean_peak < mean_plateau) {
        *limits.lower += mean_peak - mean_plateau;
    }
    return limits;
}

class DisplayJudge {
public:
    DisplayJudge(const MeasuredTrace& measured_trace, const std::vector<Hindrance>& hindrances, const Preset& preset,
                 bool insufflation)
        : measured_trace_(measured_trace), evidence_(*measured_trace.evidence), hindrances_(hindrances),
          preset_(preset), insufflation_(insufflation), entry_(entry_of(evidence_, preset.name)),
          measured_(measured_of(measured_trace, preset, insufflation))
    {
        describe();
    }

    Judgement result()
    {
        compare();
        decide();
        return judgement_;
    }

private:
    void describe()
    {
        const auto& plateau = insufflation_ ? measurand::insufflation_pressure : measurand::exsufflation_pressure;
        judgement_.measurand = insufflation_ ? measurand::displayed_insufflation : measurand::displayed_exsufflation;
        judgement_.preset = preset_.name;
        judgement_.against = "measured";
        judgement_.unit = "cmH2O";
        judgement_.prescribed = nominal_of(plateau, preset_);
        judgement_.set = judgement_.prescribed;
        for (const auto& measured : measured_trace_.spans) {
            if (measured.span.what == SpanKind::automatic && measured.prescribed == &preset_) {
                judgement_.set = nominal_of(plateau, measured.set);
            }
        }
        judgement_.displayed = displayed_value(evidence_, preset_.name, insufflation_);
        judgement_.n = static_cast<int>(measured_.values.size());
        tolerance_ = tolerance_of(judgement_.measurand, *evidence_.order, evidence_.house);
        judgement_.basis = tolerance_.basis;
    }

    void compare()
    {
        if (measured_.values.empty()) {
            return;
        }
        const double mean = *signal::mean(measured_.values);
        const auto of_mean = mean_uncertainty(measured_.plateaus);
        judgement_.mean = mean;
        judgement_.mean_uncertainty = of_mean.expanded_uncertainty;
        judgement_.repeatability = signal::standard_deviation(measured_.values);
        if (entry_ != nullptr && !is_judged(entry_->shows)) {
            return;
        }
        judgement_.limits = tolerance_.limits(mean);
        if (entry_ != nullptr && entry_->shows == Shows::cycle_peak) {
            judgement_.limits = widened_to_peak(judgement_.limits, mean, *signal::mean(measured_.peaks));
        }
        if (judgement_.displayed) {
            compare_value(of_mean);
        }
    }

    void compare_value(const metrology::Expanded& of_mean)
    {
        judgement_.budget = displayed_budget(of_mean, evidence_.order->unit.display_step_cmH2O);
        const auto expanded = metrology::combine(judgement_.budget);
        judgement_.worst = judgement_.displayed;
        judgement_.expanded_uncertainty = expanded.expanded_uncertainty;
        judgement_.coverage_factor = expanded.coverage_factor;
        judgement_.ratio = width_ratio(expanded.expanded_uncertainty);
        judgement_.probability_outside =
            metrology::probability_outside(*judgement_.displayed, expanded.spread, judgement_.limits);
    }

    /// One-sided limits lie about a measured value, not about 0: the ratio is that of the width to U.
    [[nodiscard]] std::optional<double> width_ratio(double expanded) const
    {
        if (judgement_.limits.lower && judgement_.limits.upper) {
            return metrology::ratio(judgement_.limits, expanded);
        }
        const auto limit = judgement_.limits.upper ? judgement_.limits.upper : judgement_.limits.lower;
        return limit && expanded > 0.0 ? std::optional<double>(std::abs(*limit - *judgement_.mean) / expanded)
                                       : std::nullopt;
    }

    void decide()
    {
        const bool unread = entry_ == nullptr || entry_->shows == Shows::not_read ||
                            (is_judged(entry_->shows) && !judgement_.displayed);
        if (unread && evidence_.order->occasion == Occasion::home_visit) {
            leave("display-not-read", "the display was not read.");
        } else if (!unread && !is_judged(entry_->shows)) {
            leave("display-not-measured", "the unit displays no measured pressure.");
        } else if (const auto* hindrance = first_hindrance(hindrances_, judgement_.measurand, preset_.name)) {
            stop(hindrance->reason);
        } else if (unread) {
            stop({"display-not-read", "the display was not read."});
        } else {
            decide_value();
        }
    }

    void decide_value()
    {
        if (!judgement_.worst) {
            stop(too_few());
            return;
        }
        const auto outcome = metrology::decide(*judgement_.worst, *judgement_.expanded_uncertainty, judgement_.limits,
                                               evidence_.order->decision_rule);
        const bool outside = metrology::is_fail(outcome);
        const double margin = metrology::margin(*judgement_.worst, judgement_.limits);
        if (judgement_.ratio && *judgement_.ratio < 1.0 && margin >= -*judgement_.expanded_uncertainty) {
            stop({"too-uncertain",
                  "its uncertainty is larger than its tolerance, so it says neither pass nor fail: " + sentence()});
            return;
        }
        if (!outside && judgement_.n < cycles_needed(measured_trace_)) {
            stop(too_few());
            return;
        }
        judgement_.verdict = outcome;
        if (outside) {
            judgement_.reason = Reason{"outside-limits", sentence()};
        } else if (outcome == Outcome::conditional_pass) {
            judgement_.reason = Reason{"near-limit", sentence()};
        }
    }

    [[nodiscard]] Reason too_few() const
    {
        return too_few_cycles(measured_trace_, judgement_.n, cycles_needed(measured_trace_));
    }

    [[nodiscard]] std::string sentence() const
    {
        return figure(*judgement_.worst) + " cmH2O displayed, mean plateau " + figure(*judgement_.mean) +
               " cmH2O, limits " + words_of(judgement_.limits, "cmH2O") + ".";
    }

    void stop(Reason reason)
    {
        judgement_.verdict = Outcome::incomplete;
        judgement_.reason = std::move(reason);
    }

    void leave(const std::string& code, const std::string& text)
    {
        judgement_.verdict = Outcome::not_judged;
        judgement_.limits = {};
        judgement_.reason = Reason{code, text};
    }

    const MeasuredTrace& measured_trace_;
    const Evidence& evidence_;
    const std::vector<Hindrance>& hindrances_;
    const Preset& preset_;
    bool insufflation_;
    const Displayed* entry_;
    Measured measured_;
    Tolerance tolerance_;
    Judgement judgement_;
};

} // namespace

std::optional<double> displayed_value(const Evidence& evidence, const std::string& preset, bool insufflation)
{
    const auto* entry = entry_of(evidence, preset);
    if (entry == nullptr) {
        return std::nullopt;
    }
    return insufflation ? entry->insufflation_cmH2O : entry->exsufflation_cmH2O;
}

std::vector<Judgement> judge_displays(const MeasuredTrace& measured_trace, const std::vector<Hindrance>& all,
                                      const Preset& preset)
{
    if (measured_trace.evidence->run == nullptr || !measured_trace.evidence->run->displayed) {
        return {};
    }
    return {DisplayJudge(measured_trace, all, preset, true).result(),
            DisplayJudge(measured_trace, all, preset, false).result()};
}

// A unit on battery against the same unit on mains.

namespace {

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
