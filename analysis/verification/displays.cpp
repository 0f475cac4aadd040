#include "analysis/verification/judgement.hpp"

#include "analysis/signal/statistics.hpp"
#include "analysis/verification/budgets.hpp"
#include "analysis/verification/figures.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

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

} // namespace zeroline::verification
