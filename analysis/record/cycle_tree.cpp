#include "analysis/record/cycle_tree.hpp"

#include "analysis/verification/rates.hpp"

#include <cmath>

namespace zeroline::record {

namespace {

using nlohmann::ordered_json;
using signal::Phase;
using signal::PhaseKind;
using verification::Cycle;

/// What a key of a phase needs of the sampling.
enum class Need { level, duration, transition };

double rate_for(Need need)
{
    switch (need) {
    case Need::level:
        return verification::kRateForLevels_hz;
    case Need::duration:
        return verification::kRateForDurations_hz;
    case Need::transition:
        break;
    }
    return verification::kRateForTransitions_hz;
}

/// Writes one phase's keys in their order and gives every null its reason.
class PhaseTree {
public:
    PhaseTree(const Cycle& cycle, const Phase& phase, double rate_hz) : cycle_(cycle), phase_(phase), rate_hz_(rate_hz)
    {
        tree_["start_s"] = phase.start_s();
    }

    template <class T> void put(const std::string& key, const std::optional<T>& value, Need need)
    {
        if (value && rate_hz_ >= rate_for(need)) {
            tree_[key] = *value;
        } else {
            tree_[key] = nullptr;
            because_[key] = why(need);
        }
    }

    void put_value(const std::string& key, const std::string& quantity, Need need)
    {
        put(key, value_of(quantity), need);
    }
    void put_uncertainty(const std::string& key, const std::string& quantity, Need need)
    {
        put(key, uncertainty_of(quantity), need);
    }

    void put_plain(const std::string& key, ordered_json value) { tree_[key] = std::move(value); }
    void put_null(const std::string& key, const std::string& because)
    {
        tree_[key] = nullptr;
        because_[key] = because;
    }

    ordered_json finished()
    {
        tree_["cut"] = phase_.cut();
        if (!because_.empty()) {
            tree_["null_because"] = because_;
        }
        return std::move(tree_);
    }

    [[nodiscard]] std::optional<double> value_of(const std::string& quantity) const
    {
        const auto it = cycle_.quantities.find(quantity);
        return it == cycle_.quantities.end() ? std::nullopt : std::optional<double>(it->second.value);
    }

    [[nodiscard]] std::optional<double> uncertainty_of(const std::string& quantity) const
    {
        const auto it = cycle_.quantities.find(quantity);
        return it == cycle_.quantities.end() ? std::nullopt
                                             : std::optional<double>(it->second.expanded.expanded_uncertainty);
    }

private:
    [[nodiscard]] std::string why(Need need) const
    {
        if (rate_hz_ < rate_for(need)) {
            return "sampling-rate";
        }
        if (phase_.cut()) {
            return "cut";
        }
        return need == Need::duration && cycle_.why_not_judged == "manual" ? "manual" : "not-measurable";
    }

    const Cycle& cycle_;
    const Phase& phase_;
    double rate_hz_;
    ordered_json tree_;
    ordered_json because_ = ordered_json::object();
};

void put_durations(PhaseTree& tree, const std::string& word)
{
    tree.put_value("duration_s", word + "-duration", Need::duration);
    tree.put_value("mid_level_duration_s", word + "-duration-mid-level", Need::duration);
    tree.put_uncertainty("duration_uncertainty_s", word + "-duration", Need::duration);
}

/// `word`: rise, swing, release.
void put_transition(PhaseTree& tree, const std::string& word)
{
    tree.put_value(word + "_time_s", word + "-time", Need::transition);
    tree.put_uncertainty(word + "_time_uncertainty_s", word + "-time", Need::transition);
}

/// Where the response of sensor and line is not stated, a peak is "at least": how much more it was nobody knows.
void put_hidden(PhaseTree& tree, const std::string& key, const std::string& quantity, bool measured)
{
    if (measured && !tree.uncertainty_of(quantity)) {
        tree.put_null(key, "response-not-stated");
    } else {
        tree.put_uncertainty(key, quantity, Need::level);
    }
}

ordered_json tree_of_oscillation(const PhaseTree& tree, const std::string& word)
{
    const auto frequency = tree.value_of(word + "-oscillation-frequency");
    const auto amplitude = tree.value_of(word + "-oscillation-amplitude");
    if (!frequency || !amplitude) {
        return nullptr;
    }
    return {{"frequency_hz", *frequency},
            {"frequency_uncertainty_hz", *tree.uncertainty_of(word + "-oscillation-frequency")},
            {"amplitude_cmH2O", *amplitude},
            {"amplitude_uncertainty_cmH2O", *tree.uncertainty_of(word + "-oscillation-amplitude")}};
}

ordered_json tree_of_dwell(const Cycle& cycle, const std::optional<Phase>& phase, double rate_hz)
{
    if (!phase) {
        return nullptr;
    }
    const bool insufflation = phase->kind == PhaseKind::insufflation;
    const std::string word = insufflation ? "insufflation" : "exsufflation";
    PhaseTree tree(cycle, *phase, rate_hz);
    put_durations(tree, word);
    tree.put_value("plateau_cmH2O", word + "-pressure", Need::level);
    tree.put_uncertainty("plateau_uncertainty_cmH2O", word + "-pressure", Need::level);
    tree.put_plain("settled", phase->settled);
    tree.put("peak_cmH2O", phase->peak_cmH2O, Need::level);
    tree.put("overshoot_percent", phase->overshoot_percent, Need::level);
    put_hidden(tree, "peak_uncertainty_cmH2O", word + "-peak", !phase->cut() && phase->peak_cmH2O);
    put_hidden(tree, "overshoot_uncertainty_percent", word + "-overshoot", !phase->cut() && phase->overshoot_percent);
    put_transition(tree, insufflation ? "rise" : "swing");
    tree.put("droop_cmH2O_per_s", phase->droop_cmH2O_per_s, Need::level);
    tree.put("ripple_cmH2O", phase->ripple_cmH2O, Need::level);
    tree.put_plain("oscillation", tree_of_oscillation(tree, word));
    return tree.finished();
}

/// The pressure came back, it never did, or the pause was not seen whole and nobody can tell.
void put_return(PhaseTree& tree, const Phase& pause)
{
    const auto& name = "return-to-zero";
    if (pause.cut()) {
        for (const auto* key : {"return_to_zero_s", "return_to_zero_uncertainty_s", "returned"}) {
            tree.put_null(key, "cut");
        }
        return;
    }
    if (pause.returned) {
        tree.put_value("return_to_zero_s", name, Need::duration);
        tree.put_uncertainty("return_to_zero_uncertainty_s", name, Need::duration);
    } else {
        tree.put_null("return_to_zero_s", "never-returned");
        tree.put_null("return_to_zero_uncertainty_s", "never-returned");
    }
    tree.put_plain("returned", pause.returned);
}

ordered_json tree_of_pause(const Cycle& cycle, double rate_hz)
{
    if (!cycle.pause) {
        return nullptr;
    }
    const auto& pause = *cycle.pause;
    PhaseTree tree(cycle, pause, rate_hz);
    put_durations(tree, "pause");
    tree.put_value("residual_cmH2O", "pause-residual", Need::level);
    tree.put_uncertainty("residual_uncertainty_cmH2O", "pause-residual", Need::level);
    put_transition(tree, "release");
    put_return(tree, pause);
    tree.put_plain("rest", cycle.rest_follows);
    return tree.finished();
}

/// JSON has no infinity: endless degrees of freedom are null.
ordered_json dof(double value) { return std::isfinite(value) ? ordered_json(value) : ordered_json(nullptr); }

ordered_json tree_of(const Cycle::Quantity& quantity)
{
    ordered_json lines = ordered_json::array();
    for (const auto& line : quantity.budget) {
        lines.push_back({{"name", line.name},
                         {"value", line.value},
                         {"distribution", metrology::word_of(line.distribution)},
                         {"degrees_of_freedom", dof(line.dof)},
                         {"sensitivity", line.sensitivity},
                         {"share", line.share()}});
    }
    return {{"value", quantity.value},
            {"contributions", std::move(lines)},
            {"standard_uncertainty", quantity.expanded.standard_uncertainty},
            {"effective_degrees_of_freedom", dof(quantity.expanded.effective_dof)},
            {"coverage_factor", quantity.expanded.coverage_factor},
            {"expanded_uncertainty", quantity.expanded.expanded_uncertainty}};
}

} // namespace

ordered_json tree_of_cycle(const Cycle& cycle, double rate_hz)
{
    return {{"index", cycle.index},
            {"preset", cycle.preset},
            {"span", cycle.span},
            {"start_s", cycle.start_s},
            {"judged", cycle.judged},
            {"why_not_judged", cycle.judged ? ordered_json(nullptr) : ordered_json(cycle.why_not_judged)},
            {"reversed", cycle.reversed},
            {"insufflation", tree_of_dwell(cycle, cycle.insufflation, rate_hz)},
            {"exsufflation", tree_of_dwell(cycle, cycle.exsufflation, rate_hz)},
            {"pause", tree_of_pause(cycle, rate_hz)}};
}

ordered_json budgets_of_cycle(const Cycle& cycle)
{
    ordered_json tree = ordered_json::object();
    for (const auto& [name, quantity] : cycle.quantities) {
        tree[name] = tree_of(quantity);
    }
    return {
        {"cycle", cycle.index}, {"preset", cycle.preset}, {"judged", cycle.judged}, {"quantities", std::move(tree)}};
}

} // namespace zeroline::record
