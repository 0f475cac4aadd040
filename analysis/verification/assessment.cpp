#include "analysis/verification/assessment.hpp"

#include "analysis/verification/criticals.hpp"
#include "analysis/verification/figures.hpp"
#include "analysis/verification/findings.hpp"
#include "analysis/verification/hand_back.hpp"
#include "analysis/verification/instrument_check.hpp"
#include "analysis/verification/judgement.hpp"
#include "analysis/verification/not_tested.hpp"
#include "analysis/verification/trace_measurement.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

using metrology::Outcome;
using metrology::worse;

/// Puts the parts of an assessment together and tells the two overall verdicts.
class Assessor {
public:
    explicit Assessor(const Evidence& evidence, PhaseMemory* memory = nullptr)
        : evidence_(evidence), built_(evidence, memory), findings_(find(built_.measured_trace())),
          hindrances_(hindrances(built_.measured_trace(), findings_)),
          criticals_(criticals(built_.measured_trace(), hindrances_))
    {
    }

    Assessment result()
    {
        judge_presets();
        weigh_criticals();
        weigh_checklist();
        weigh_hand_back();
        say_what_was_skipped();
        say_what_was_assumed();
        copy_the_rest();
        return std::move(result_);
    }

private:
    void judge_presets()
    {
        result_.verdict = Outcome::not_judged;
        result_.unit_accuracy = Outcome::not_judged;
        for (const auto& preset : evidence_.order->presets) {
            for (auto& judged : judge(built_.measured_trace(), hindrances_, preset)) {
                const auto verdict = judged.judgement.verdict;
                result_.verdict = judged.for_verdict ? worse(result_.verdict, verdict) : result_.verdict;
                result_.unit_accuracy = judged.for_unit ? worse(result_.unit_accuracy, verdict) : result_.unit_accuracy;
                note(judged.judgement);
                result_.judgements.push_back(std::move(judged.judgement));
            }
        }
    }

    void note(const Judgement& judgement)
    {
        if (judgement.reason) {
            give(is_of_the_whole(*judgement.reason) ? *judgement.reason : of(judgement, *judgement.reason));
        }
        constexpr double kSmallestRatio = 4.0;
        if (judgement.ratio && *judgement.ratio < kSmallestRatio) {
            give(of(judgement, {"low-ratio", "the tolerance is only " + figure(*judgement.ratio) +
                                                 " times the uncertainty; 4 is usual."}));
        }
    }

    /// A judgement's own reason, as it reads away from the judgement.
    static Reason of(const Judgement& judgement, const Reason& reason)
    {
        return {reason.code, judgement.measurand + " (" + judgement.preset + "): " + reason.text};
    }

    /// Something that stopped more than one judgement: it names what it stopped, or all are stopped.
    [[nodiscard]] bool is_of_the_whole(const Reason& reason) const
    {
        return std::any_of(hindrances_.begin(), hindrances_.end(), [&](const Hindrance& hindrance) {
            return hindrance.reason.code == reason.code && hindrance.reason.text == reason.text;
        });
    }

    void weigh_criticals()
    {
        for (const auto& critical : criticals_) {
            const auto outcome = critical.possible ? Outcome::incomplete : Outcome::fail;
            result_.verdict = critical.for_verdict ? worse(result_.verdict, outcome) : result_.verdict;
            result_.unit_accuracy = critical.for_unit ? worse(result_.unit_accuracy, outcome) : result_.unit_accuracy;
            give(critical.reason);
            if (!critical.explained) {
                result_.critical = true;
                mark(critical);
            }
        }
        for (const auto& finding : findings_) {
            result_.critical = result_.critical || finding.severity == Severity::critical;
        }
    }

    void mark(const Critical& critical)
    {
        for (auto& judgement : result_.judgements) {
            const bool asked = critical.for_verdict ? judgement.against == "prescribed" : judgement.span.has_value();
            const bool same = judgement.measurand == critical.measurand && judgement.preset == critical.preset;
            const bool there = judgement.power.empty() || judgement.power == power_in(critical.cycle);
            judgement.critical = judgement.critical || (same && asked && there && critical.cycle > 0);
        }
    }

    /// What a cycle ran on, as the rows of a judgement tell it.
    [[nodiscard]] std::string power_in(int cycle) const
    {
        const auto& measured_trace = built_.measured_trace();
        for (const auto& one : measured_trace.cycles) {
            if (one.index == cycle) {
                return span_of(measured_trace, one).span.on_battery() ? "battery" : "mains";
            }
        }
        return {};
    }

    void weigh_checklist()
    {
        if (evidence_.run == nullptr) {
            return;
        }
        for (const auto& item : evidence_.run->checklist) {
            if (item.outcome == ChecklistItem::Outcome::not_ok) {
                // An instrument that reads wrong says nothing of the unit.
                const bool unit = item.item != kInstrumentItem;
                result_.verdict = worse(result_.verdict, unit ? Outcome::fail : Outcome::incomplete);
                give({"checklist",
                      "Not in order: " + item.item + (item.remark.empty() ? "" : " (" + item.remark + ")") + "."});
            }
        }
    }

    void weigh_hand_back()
    {
        for (auto& reason : hand_back_reasons(evidence_)) {
            result_.verdict = worse(result_.verdict, Outcome::incomplete);
            give(std::move(reason));
        }
    }

    /// The verdict follows from what was not seen; the words of whoever left it out stand beside it.
    void say_what_was_skipped()
    {
        if (evidence_.run == nullptr) {
            return;
        }
        result_.skipped = evidence_.run->skipped;
        for (const auto& one : result_.skipped) {
            give({"skipped", "Skipped: " + word_of(one.what) + (one.preset.empty() ? "" : " of preset " + one.preset) +
                                 " (" + one.reason + ")."});
        }
    }

    void say_what_was_assumed()
    {
        std::string of_house;
        for (const auto& judgement : result_.judgements) {
            const bool judged = judgement.limits.lower || judgement.limits.upper;
            const bool house = tolerance_of(judgement.measurand, *evidence_.order, evidence_.house).house;
            if (judged && house && of_house.find(judgement.measurand) == std::string::npos) {
                of_house += (of_house.empty() ? "" : ", ") + judgement.measurand;
            }
        }
        if (!of_house.empty()) {
            give(
                {"house-tolerance", "House limits (" + evidence_.house.label() + ") were used for: " + of_house + "."});
        }
        if (evidence_.instrument == nullptr) {
            give({"no-instrument", "There is no instrument file: uncertainties hold the signal's own part only."});
        }
        if (evidence_.instrument != nullptr && !evidence_.instrument->response_ms) {
            give({"response-not-stated",
                  "The instrument file does not state the response of sensor and sensing line: peak "
                  "and overshoot are at least what is shown."});
        }
        const auto& zero = built_.measured_trace().zero;
        if (evidence_.run != nullptr && zero.before && !zero.after) {
            give({"no-zero-after", "There is no zero reading after the run: the house limit of drift, " +
                                       figure(evidence_.house.zero_drift_cmH2O) +
                                       " cmH2O, stands in the uncertainties."});
        }
    }

    void copy_the_rest()
    {
        const auto& measured_trace = built_.measured_trace();
        result_.origin = evidence_.origin;
        result_.attempt = evidence_.run != nullptr ? evidence_.run->attempt.value_or(1) : 1;
        result_.zero = measured_trace.zero;
        result_.sampling = evidence_.trace->sampling;
        result_.not_tested = not_tested(measured_trace);
        result_.cycles = measured_trace.cycles;
        result_.findings = findings_;
        result_.leaks = measured_trace.leaks;
        result_.strength = measured_trace.strength;
    }

    /// Each reason once: findings and evidence may both name the same thing.
    void give(Reason reason)
    {
        const bool known = std::any_of(result_.reasons.begin(), result_.reasons.end(), [&](const Reason& other) {
            return other.code == reason.code && (other.text == reason.text || reason.code == "no-instrument");
        });
        if (!known) {
            result_.reasons.push_back(std::move(reason));
        }
    }

    const Evidence& evidence_;
    TraceMeasurement built_;
    std::vector<Finding> findings_;
    std::vector<Hindrance> hindrances_;
    std::vector<Critical> criticals_;
    Assessment result_;
};

} // namespace

Assessment assess(const Evidence& evidence) { return Assessor(evidence).result(); }

Assessment assess(const Evidence& evidence, PhaseMemory& memory) { return Assessor(evidence, &memory).result(); }

} // namespace zeroline::verification
