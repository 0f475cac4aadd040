#include "analysis/record/record.hpp"

#include "analysis/record/cycle_tree.hpp"
#include "analysis/verification/ladder.hpp"
#include "analysis/verification/measurands.hpp"
#include "analysis/verification/measured_trace.hpp"

namespace zeroline::record {

namespace {

using nlohmann::json;
using nlohmann::ordered_json;
using verification::Assessment;
using verification::Evidence;
using verification::Finding;
using verification::Judgement;
using verification::Reason;
using verification::Severity;

template <class T> ordered_json or_null(const std::optional<T>& value)
{
    return value ? ordered_json(*value) : ordered_json(nullptr);
}

ordered_json or_null(const std::string& text) { return text.empty() ? ordered_json(nullptr) : ordered_json(text); }

ordered_json tree_of(const std::optional<Reason>& reason)
{
    return reason ? ordered_json{{"code", reason->code}, {"text", reason->text}} : ordered_json(nullptr);
}

std::string word_of(Severity severity)
{
    switch (severity) {
    case Severity::note:
        return "note";
    case Severity::caution:
        return "caution";
    case Severity::critical:
        break;
    }
    return "critical";
}

ordered_json tree_of(const Finding& finding)
{
    ordered_json figures = ordered_json::object();
    for (const auto& [name, value] : finding.figures) {
        figures[name] = value;
    }
    return {{"code", finding.code},          {"severity", word_of(finding.severity)},
            {"touches", finding.touches},    {"preset", or_null(finding.preset)},
            {"cycles", finding.cycles},      {"times_s", finding.times_s},
            {"figures", std::move(figures)}, {"text", finding.text}};
}

/// Durations run from onset to onset unless the basis of their tolerance says otherwise.
ordered_json definition_of(const Judgement& judgement, const Evidence& evidence)
{
    const auto* known = verification::measurand_named(judgement.measurand);
    if (known == nullptr || known->kind != verification::MeasurandKind::duration) {
        return nullptr;
    }
    const bool mid = verification::tolerance_of(judgement.measurand, *evidence.order, evidence.house).mid_level;
    return mid ? "mid-level" : "onset by the 10/30 line";
}

ordered_json tree_of(const Judgement& judgement, const Evidence& evidence)
{
    ordered_json tree{{"measurand", judgement.measurand},
                      {"preset", judgement.preset},
                      {"against", judgement.against},
                      {"span", or_null(judgement.span)},
                      {"unit", judgement.unit},
                      {"definition", definition_of(judgement, evidence)},
                      {"prescribed", or_null(judgement.prescribed)},
                      {"set", or_null(judgement.set)},
                      {"displayed", or_null(judgement.displayed)},
                      {"lower", or_null(judgement.limits.lower)},
                      {"upper", or_null(judgement.limits.upper)},
                      {"basis", judgement.basis},
                      {"n", judgement.n},
                      {"mean", or_null(judgement.mean)},
                      {"mean_uncertainty", or_null(judgement.mean_uncertainty)},
                      {"repeatability", or_null(judgement.repeatability)},
                      {"worst", or_null(judgement.worst)},
                      {"worst_cycle", or_null(judgement.worst_cycle)},
                      {"expanded_uncertainty", or_null(judgement.expanded_uncertainty)},
                      {"coverage_factor", or_null(judgement.coverage_factor)},
                      {"ratio", or_null(judgement.ratio)},
                      {"probability_outside", or_null(judgement.probability_outside)},
                      {"verdict", metrology::word_of(judgement.verdict)},
                      {"critical", judgement.critical},
                      {"reason", tree_of(judgement.reason)}};
    if (!judgement.power.empty()) {
        tree["power"] = judgement.power;
    }
    return tree;
}

ordered_json tree_of(const verification::LadderFit& fit)
{
    return {{"measurand", fit.measurand},
            {"preset", fit.preset},
            {"unit", fit.unit},
            {"settings", fit.settings},
            {"gain", fit.gain},
            {"gain_uncertainty", fit.gain_uncertainty},
            {"offset", fit.offset},
            {"offset_uncertainty", fit.offset_uncertainty},
            {"largest_deviation", fit.largest_deviation},
            {"deviation_uncertainty", fit.deviation_uncertainty},
            {"deviates_at", fit.deviates_at}};
}

ordered_json tree_of(const verification::LeakRate& leak)
{
    return {{"from_cmH2O", leak.from_cmH2O},
            {"over_s", leak.over_s},
            {"loss_cmH2O_per_s", leak.loss_cmH2O_s},
            {"uncertainty_cmH2O_per_s",
             leak.uncertainty_cmH2O_s > 0.0 ? ordered_json(leak.uncertainty_cmH2O_s) : ordered_json(nullptr)},
            {"gas_mL_per_min", leak.mL_min()}};
}

ordered_json tree_of(const verification::Strength& strength)
{
    return {{"preset", strength.preset},
            {"orifice", {{"name", strength.orifice.name}, {"diameter", strength.orifice.diameter_mm}}},
            {"phase", strength.phase},
            {"cycles", strength.cycles},
            {"closed_cmH2O", strength.closed_cmH2O},
            {"open_cmH2O", strength.open_cmH2O},
            {"share", strength.share},
            {"share_uncertainty", strength.share_uncertainty},
            {"flow_L_per_min", strength.flow_L_min},
            {"first_share", or_null(strength.first_share)},
            {"lost", or_null(strength.lost)}};
}

ordered_json tree_of_order(const Evidence& evidence)
{
    const auto& order = *evidence.order;
    return {{"work_order", order.work_order},      {"occasion", verification::word_of(order.occasion)},
            {"customer", or_null(order.customer)}, {"contact", or_null(order.contact)},
            {"reference", order.reference},        {"ordered_on", or_null(order.ordered_on)},
            {"cycles_needed", order.cycles}};
}

ordered_json tree_of_unit(const Evidence& evidence)
{
    const auto& unit = evidence.order->unit;
    return {{"asset", unit.asset},
            {"serial", unit.serial},
            {"model", unit.model},
            {"hours", or_null(unit.hours)},
            {"display_step_cmH2O", unit.display_step_cmH2O}};
}

ordered_json tree_of_prescription(const Evidence& evidence)
{
    ordered_json presets = ordered_json::array();
    for (const auto& preset : evidence.order->presets) {
        presets.push_back(ordered_json(verification::to_json(preset)));
    }
    return presets;
}

ordered_json tree_of_instrument(const Evidence& evidence)
{
    if (evidence.instrument == nullptr) {
        return nullptr;
    }
    const auto& instrument = *evidence.instrument;
    const auto& calibration = instrument.calibration;
    return {{"name", instrument.name},
            {"serial", instrument.serial},
            {"certificate", calibration.certificate},
            {"calibrated_on", calibration.on},
            {"calibration_due", calibration.due},
            {"expanded_uncertainty", calibration.expanded_uncertainty},
            {"coverage_factor", calibration.coverage_factor},
            {"calibrated_low", instrument.calibrated_low()},
            {"calibrated_high", instrument.calibrated_high()},
            {"unit", std::string(trace::name_of(instrument.range.unit))},
            {"nominal_hz", instrument.nominal_hz}};
}

ordered_json tree_of_run(const Evidence& evidence)
{
    if (evidence.run == nullptr) {
        return nullptr;
    }
    const json run = verification::to_json(*evidence.run);
    ordered_json tree;
    for (const auto* key : {"operator", "place", "began", "replaces", "spans", "confirmed", "displayed", "hose",
                            "settings_found", "settings_left", "restored", "checklist", "environment"}) {
        tree[key] = run.contains(key) ? ordered_json(run[key]) : ordered_json(nullptr);
    }
    // Only where there is one, so that records from before there was such a thing stay as they are.
    for (const auto* key : {"skipped", "first_strength", "disposition"}) {
        if (run.contains(key)) {
            tree[key] = run[key];
        }
    }
    return tree;
}

ordered_json tree_of_house(const Evidence& evidence)
{
    const auto& house = evidence.house;
    return {{"label", house.label()},
            {"zero_offset_cmH2O", house.zero_offset_cmH2O},
            {"zero_drift_cmH2O", house.zero_drift_cmH2O},
            {"leak_cmH2O_per_s", house.leak_cmH2O_per_s},
            {"peak_hold_s", house.peak_hold_s}};
}

ordered_json tree_of_zero(const Assessment& assessment)
{
    return {{"before", or_null(assessment.zero.before)},
            {"after", or_null(assessment.zero.after)},
            {"drift", or_null(assessment.zero.drift)},
            {"noise", or_null(assessment.zero.noise)}};
}

ordered_json tree_of_sampling(const Assessment& assessment)
{
    const auto& sampling = assessment.sampling;
    return {{"rate_hz", sampling.rate_hz},
            {"rate_error_ppm", or_null(sampling.rate_error_ppm)},
            {"residual_s", or_null(sampling.residual_s)},
            {"batch_period_s", or_null(sampling.batch_period_s)},
            {"lost", sampling.lost},
            {"from_arrivals", sampling.from_arrivals}};
}

template <class Range, class TreeOf> ordered_json listed(const Range& range, TreeOf tree_of_one)
{
    ordered_json list = ordered_json::array();
    for (const auto& one : range) {
        list.push_back(tree_of_one(one));
    }
    return list;
}

void put_circumstances(ordered_json& tree, const Evidence& evidence)
{
    tree["order"] = tree_of_order(evidence);
    tree["unit"] = tree_of_unit(evidence);
    tree["prescription"] = tree_of_prescription(evidence);
    tree["instrument"] = tree_of_instrument(evidence);
    tree["run"] = tree_of_run(evidence);
    tree["house"] = tree_of_house(evidence);
}

} // namespace

ordered_json to_json(const Evidence& evidence, const Assessment& assessment, const Software& software, Parts parts)
{
    ordered_json tree;
    tree["schema"] = "zeroline/record/1";
    tree["method"] = kMethod;
    tree["verdict"] = metrology::word_of(assessment.verdict);
    tree["unit_accuracy"] = metrology::word_of(assessment.unit_accuracy);
    tree["critical"] = assessment.critical;
    tree["reasons"] = listed(assessment.reasons, [](const Reason& reason) { return tree_of(reason); });
    tree["origin"] = verification::word_of(assessment.origin);
    tree["attempt"] = assessment.attempt;
    tree["decision_rule"] = metrology::word_of(evidence.order->decision_rule);
    tree["lead_cycles"] = evidence.order->lead_cycles;
    tree["scope"] = "pressures and times at a closed hose end only";
    tree["zero"] = tree_of_zero(assessment);
    tree["sampling"] = tree_of_sampling(assessment);
    tree["software"] = {{"version", software.version}, {"build", software.build}};
    tree["not_tested"] = assessment.not_tested;
    put_circumstances(tree, evidence);
    if (parts == Parts::all) {
        tree["cycles"] = listed(assessment.cycles, [&](const verification::Cycle& cycle) {
            return tree_of_cycle(cycle, assessment.sampling.rate_hz);
        });
    }
    tree["judgements"] =
        listed(assessment.judgements, [&](const Judgement& judgement) { return tree_of(judgement, evidence); });
    // Only where one was run, so that records without it stay as they are.
    if (const auto fits = verification::ladder_fits(assessment.judgements); !fits.empty()) {
        tree["ladder"] = listed(fits, [](const verification::LadderFit& fit) { return tree_of(fit); });
    }
    if (!assessment.leaks.empty()) {
        tree["leak_test"] = listed(assessment.leaks, [](const verification::LeakRate& leak) { return tree_of(leak); });
    }
    if (!assessment.strength.empty()) {
        tree["strength"] = listed(assessment.strength, [](const verification::Strength& one) { return tree_of(one); });
    }
    tree["findings"] = listed(assessment.findings, [](const Finding& finding) { return tree_of(finding); });
    return tree;
}

ordered_json budgets_to_json(const Assessment& assessment) { return listed(assessment.cycles, budgets_of_cycle); }

} // namespace zeroline::record
