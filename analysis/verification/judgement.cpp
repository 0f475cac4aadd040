#include "analysis/verification/judgement.hpp"

#include "analysis/signal/statistics.hpp"
#include "analysis/verification/budgets.hpp"
#include "analysis/verification/figures.hpp"
#include "analysis/verification/measurands.hpp"
#include "analysis/verification/unlike_cycle.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

using metrology::Outcome;
using signal::PhaseKind;

/// One cycle's value of a measurand.
struct Value {
    double value = 0.0;
    const Cycle* cycle = nullptr;
    const Cycle::Quantity* quantity = nullptr;
};

MeasurandKind kind_of(const std::string& name) { return measurand_named(name)->kind; }

bool is_duration(const std::string& name) { return kind_of(name) == MeasurandKind::duration; }

bool is_pressure(const std::string& name) { return kind_of(name) == MeasurandKind::pressure; }

bool is_oscillation(const std::string& name)
{
    return kind_of(name) == MeasurandKind::frequency || kind_of(name) == MeasurandKind::amplitude;
}

std::optional<PhaseKind> phase_of(const std::string& name) { return measurand_named(name)->phase; }

/// Under which names a measurand's quantities stand in a cycle.
std::vector<std::string> names_of(const Comparison& comparison, const Tolerance& tolerance)
{
    const auto& name = comparison.measurand;
    if (is_duration(name)) {
        return {tolerance.mid_level ? name + "-mid-level" : name};
    }
    if (!is_oscillation(name)) {
        return {name};
    }
    const auto during = comparison.nominal.oscillation ? comparison.nominal.oscillation->during : During::both;
    std::vector<std::string> names;
    if (during != During::exsufflation) {
        names.push_back("insufflation-" + name);
    }
    if (during != During::insufflation) {
        names.push_back("exsufflation-" + name);
    }
    return names;
}

/// Judges one comparison: collects its values once, then takes the steps in their order.
class Judge {
public:
    Judge(const MeasuredTrace& measured_trace, const std::vector<Hindrance>& hindrances, const Comparison& comparison)
        : measured_trace_(measured_trace), evidence_(*measured_trace.evidence), hindrances_(hindrances),
          comparison_(comparison), tolerance_(tolerance_of(comparison.measurand, *evidence_.order, evidence_.house))
    {
        for (const auto* cycle : judged_cycles(measured_trace, comparison.spans)) {
            if (!(is_of_pause(comparison.measurand) && cycle->rest_follows)) {
                collect(*cycle);
            }
        }
    }

    Judgement result()
    {
        describe();
        summarise();
        take_worst();
        decide();
        return judgement_;
    }

private:
    [[nodiscard]] double shift() const
    {
        // A residual is kept relative to the prescribed pause level (a ladder's to its own).
        const bool moved = comparison_.measurand == measurand::pause_residual && !comparison_.ladder;
        return moved ? comparison_.prescribed->pause.pressure_cmH2O - comparison_.nominal.pause.pressure_cmH2O : 0.0;
    }

    void collect(const Cycle& cycle)
    {
        bool seen = false;
        for (const auto& name : names_of(comparison_, tolerance_)) {
            const auto it = cycle.quantities.find(name);
            if (it != cycle.quantities.end()) {
                values_.push_back({it->second.value + shift(), &cycle, &it->second});
                seen = true;
            } else if (is_oscillation(comparison_.measurand)) {
                (looked_for_oscillation(cycle, name) ? without_oscillation_ : unmeasured_oscillation_) = &cycle;
            }
        }
        cycles_ += seen ? 1 : 0;
        const bool stayed_out = cycle.pause && !cycle.pause->cut() && !cycle.pause->returned;
        if (comparison_.measurand == measurand::return_to_zero && stayed_out) {
            never_returned_ = never_returned_ != nullptr ? never_returned_ : &cycle;
        }
    }

    /// An oscillation of amplitude 0 was looked for and not found; none at all was not measured.
    static bool looked_for_oscillation(const Cycle& cycle, const std::string& name)
    {
        const auto& phase = name.rfind("insufflation", 0) == 0 ? cycle.insufflation : cycle.exsufflation;
        return phase && phase->oscillation.has_value();
    }

    void describe()
    {
        const auto& name = comparison_.measurand;
        judgement_.measurand = name;
        judgement_.preset = comparison_.prescribed->name;
        judgement_.against = comparison_.against;
        judgement_.power = comparison_.power;
        judgement_.unit = measurand_named(name)->unit;
        judgement_.prescribed = nominal_of(name, *comparison_.prescribed);
        judgement_.set = nominal_of(name, set_preset());
        judgement_.limits = limits_of(name, comparison_.nominal, *evidence_.order, evidence_.house);
        judgement_.basis = tolerance_.basis;
        judgement_.n = cycles_;
        if (is_pressure(name)) {
            judgement_.displayed =
                displayed_value(evidence_, judgement_.preset, name == measurand::insufflation_pressure);
        }
        if (comparison_.ladder) {
            judgement_.span = measured_trace_.spans[comparison_.spans.front()].index;
        }
    }

    [[nodiscard]] const Preset& set_preset() const
    {
        return comparison_.spans.empty() ? *comparison_.prescribed
                                         : measured_trace_.spans[comparison_.spans.front()].set;
    }

    void summarise()
    {
        if (values_.empty()) {
            return;
        }
        std::vector<double> plain;
        std::vector<const Cycle::Quantity*> quantities;
        for (const auto& value : values_) {
            plain.push_back(value.value);
            quantities.push_back(value.quantity);
        }
        judgement_.mean = signal::mean(plain);
        judgement_.mean_uncertainty = mean_uncertainty(quantities).expanded_uncertainty;
        judgement_.repeatability = signal::standard_deviation(plain);
    }

    [[nodiscard]] double closeness(double value) const
    {
        if (judgement_.limits.lower || judgement_.limits.upper) {
            return metrology::margin(value, judgement_.limits);
        }
        return -std::abs(value - nominal_of(comparison_.measurand, comparison_.nominal).value_or(0.0));
    }

    void take_worst()
    {
        const auto nearer = [&](const Value& a, const Value& b) { return closeness(a.value) < closeness(b.value); };
        const auto it = std::min_element(values_.begin(), values_.end(), nearer);
        if (it == values_.end()) {
            return;
        }
        const auto& expanded = it->quantity->expanded;
        judgement_.worst = it->value;
        judgement_.worst_cycle = it->cycle->index;
        judgement_.expanded_uncertainty = expanded.expanded_uncertainty;
        judgement_.coverage_factor = expanded.coverage_factor;
        judgement_.budget = it->quantity->budget;
        if (judgement_.limits.lower || judgement_.limits.upper) {
            judgement_.ratio = metrology::ratio(judgement_.limits, expanded.expanded_uncertainty);
            judgement_.probability_outside =
                metrology::probability_outside(it->value, expanded.spread, judgement_.limits);
        }
        judgement_.set = nominal_of(comparison_.measurand, span_of(measured_trace_, *it->cycle).set);
    }

    void decide()
    {
        if (!judgement_.limits.lower && !judgement_.limits.upper) {
            judgement_.verdict = Outcome::not_judged;
            explain_no_limits();
            return;
        }
        if (const auto* hindrance = first_hindrance(hindrances_, comparison_.measurand, judgement_.preset)) {
            judgement_.verdict = Outcome::incomplete;
            judgement_.reason = hindrance->reason;
            return;
        }
        if (fail_unseen() || stop_too_uncertain()) {
            return;
        }
        decide_seen();
    }

    void explain_no_limits()
    {
        const bool given = tolerance_.absolute || tolerance_.relative || tolerance_.lower || tolerance_.upper;
        if (comparison_.measurand == measurand::oscillation_amplitude && given) {
            judgement_.reason =
                Reason{"set-up-not-named", "reported only: the basis of its tolerance does not say that "
                                           "it holds at a closed hose end."};
        }
    }

    [[nodiscard]] const MissingPhase* missing() const
    {
        const auto kind = phase_of(comparison_.measurand);
        const bool pause_due = comparison_.nominal.pause.duration_s > 0.0;
        for (const auto& lack : measured_trace_.missing) {
            const bool here =
                std::find(comparison_.spans.begin(), comparison_.spans.end(), lack.span) != comparison_.spans.end();
            if (lack.counts && here && kind == lack.which && (pause_due || lack.which != PhaseKind::pause)) {
                return &lack;
            }
        }
        return nullptr;
    }

    /// What is wrong although no value stands for it: a phase, a return or an oscillation that did not come.
    bool fail_unseen()
    {
        if (const auto* lack = missing()) {
            fail({"missing-phase", "the phase did not come in cycle " + std::to_string(lack->cycle) + "."});
        } else if (never_returned_ != nullptr) {
            fail({"not-returned", "the pressure did not come back to the band in cycle " +
                                      std::to_string(never_returned_->index) + "."});
        } else if (without_oscillation_ != nullptr) {
            fail({"missing-oscillation",
                  "no oscillation was found in cycle " + std::to_string(without_oscillation_->index) + "."});
        } else {
            return false;
        }
        return true;
    }

    bool stop_too_uncertain()
    {
        const bool stops =
            judgement_.worst &&
            metrology::too_uncertain(*judgement_.worst, *judgement_.expanded_uncertainty, judgement_.limits);
        if (stops) {
            judgement_.verdict = Outcome::incomplete;
            judgement_.reason =
                Reason{"too-uncertain", "its uncertainty is larger than its tolerance, so it says neither "
                                        "pass nor fail: " +
                                            worst_sentence()};
        }
        return stops;
    }

    void fail(Reason reason)
    {
        judgement_.verdict = Outcome::fail;
        judgement_.reason = std::move(reason);
        judgement_.worst.reset();
        judgement_.worst_cycle.reset();
        judgement_.expanded_uncertainty.reset();
        judgement_.coverage_factor.reset();
        judgement_.budget.clear();
        judgement_.ratio.reset();
        judgement_.probability_outside.reset();
    }

    void decide_seen()
    {
        const auto outcome = judgement_.worst ? metrology::decide(*judgement_.worst, *judgement_.expanded_uncertainty,
                                                                  judgement_.limits, evidence_.order->decision_rule)
                                              : Outcome::incomplete;
        if (metrology::is_fail(outcome)) {
            judgement_.verdict = outcome;
            judgement_.reason = Reason{"outside-limits", worst_sentence()};
        } else if (cycles_ < comparison_.needed && unmeasured_oscillation_ != nullptr) {
            judgement_.verdict = Outcome::incomplete;
            judgement_.reason =
                Reason{"oscillation-not-measured", "the oscillation could not be measured in cycle " +
                                                       std::to_string(unmeasured_oscillation_->index) + "."};
        } else if (cycles_ < comparison_.needed) {
            judgement_.verdict = Outcome::incomplete;
            judgement_.reason = too_few_cycles(measured_trace_, cycles_, comparison_.needed);
        } else {
            judgement_.verdict = outcome;
            if (outcome == Outcome::conditional_pass) {
                judgement_.reason = Reason{"near-limit", worst_sentence()};
            }
        }
    }

    [[nodiscard]] std::string worst_sentence() const
    {
        return figure(*judgement_.worst) + " " + judgement_.unit + " in cycle " +
               std::to_string(*judgement_.worst_cycle) + ", limits " + words_of(judgement_.limits, judgement_.unit) +
               " against " + comparison_.against + ", U " + figure(*judgement_.expanded_uncertainty) + " " +
               judgement_.unit + ".";
    }

    const MeasuredTrace& measured_trace_;
    const Evidence& evidence_;
    const std::vector<Hindrance>& hindrances_;
    const Comparison& comparison_;
    Tolerance tolerance_;
    std::vector<Value> values_;
    int cycles_ = 0;
    const Cycle* never_returned_ = nullptr;
    const Cycle* without_oscillation_ = nullptr;
    const Cycle* unmeasured_oscillation_ = nullptr;
    Judgement judgement_;
};

} // namespace

Reason too_few_cycles(const MeasuredTrace& measured_trace, int judged, int needed)
{
    return {"too-few-cycles",
            std::to_string(judged) + " judged cycles, " + std::to_string(needed) + " needed" +
                (has_unlike_cycle(measured_trace) ? ", as many again since one was unlike the others." : ".")};
}

Judgement judge(const MeasuredTrace& measured_trace, const std::vector<Hindrance>& all, const Comparison& comparison)
{
    return Judge(measured_trace, all, comparison).result();
}

std::vector<Judged> judge(const MeasuredTrace& measured_trace, const std::vector<Hindrance>& all, const Preset& preset)
{
    const auto asked = comparisons(measured_trace, preset);
    std::vector<Judged> judged;
    const auto put = [&](bool ladder) {
        for (const auto& comparison : asked) {
            if (comparison.ladder == ladder) {
                judged.push_back({judge(measured_trace, all, comparison), comparison.for_verdict, comparison.for_unit});
            }
        }
    };
    put(false);
    for (auto& difference : judge_battery(measured_trace, all, preset)) {
        judged.push_back({std::move(difference), true, false});
    }
    for (auto& display : judge_displays(measured_trace, all, preset)) {
        judged.push_back({std::move(display), true, false});
    }
    put(true);
    return judged;
}

} // namespace zeroline::verification
