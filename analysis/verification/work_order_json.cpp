#include "analysis/verification/work_order.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace zeroline::verification {

namespace {

using nlohmann::json;

/// A whole number is written as one: "40", not "40.0".
json number(double value)
{
    constexpr double kLargestWhole = 1e15;
    if (value == std::floor(value) && std::abs(value) < kLargestWhole) {
        return static_cast<long long>(value);
    }
    return value;
}

void put(json& onto, const char* key, const std::optional<double>& value)
{
    if (value) {
        onto[key] = number(*value);
    }
}

void put(json& onto, const char* key, const std::string& text)
{
    if (!text.empty()) {
        onto[key] = text;
    }
}

json tree_of(const PhaseSetting& phase)
{
    return {{"pressure", number(phase.pressure_cmH2O)}, {"duration", number(phase.duration_s)}};
}

json tree_of(const OscillationSetting& oscillation)
{
    return {{"frequency", number(oscillation.frequency_hz)},
            {"amplitude", number(oscillation.amplitude_cmH2O)},
            {"during", word_of(oscillation.during)}};
}

json tree_of(const Series& series)
{
    return {{"breaths", series.breaths}, {"count", series.count}, {"rest", number(series.rest_s)}};
}

json tree_of(Flow flow, const std::string& as_labelled)
{
    if (as_labelled.empty()) {
        return word_of(flow);
    }
    return {{"class", word_of(flow)}, {"as_labelled", as_labelled}};
}

json tree_of(const Tolerance& tolerance, const std::string& common_basis)
{
    json tree = json::object();
    put(tree, "absolute", tolerance.absolute);
    put(tree, "relative", tolerance.relative);
    if (tolerance.combine == Tolerance::Combine::sum) {
        tree["combine"] = "sum";
    }
    put(tree, "at_most", tolerance.at_most);
    put(tree, "lower", tolerance.lower);
    put(tree, "upper", tolerance.upper);
    if (tolerance.mid_level) {
        tree["definition"] = "mid-level";
    }
    put(tree, "within", tolerance.within_s);
    put(tree, "basis", tolerance.basis == common_basis ? std::string() : tolerance.basis);
    return tree;
}

void put(json& onto, const char* key, const std::optional<Tolerance>& tolerance, const std::string& common_basis)
{
    if (tolerance) {
        onto[key] = tree_of(*tolerance, common_basis);
    }
}

/// Phase entries stand inside the general tolerance; each with its basis, which must not be inherited from there.
void put_phase(json& tree, const char* general, const char* phase, const std::optional<Tolerance>& tolerance,
               const std::string& common_basis)
{
    if (tolerance) {
        tree[general][phase] = tree_of(*tolerance, tree[general].contains("basis") ? std::string() : common_basis);
    }
}

json tree_of_unit(const UnitUnderTest& unit)
{
    json tree = {{"asset", unit.asset}, {"serial", unit.serial}, {"model", unit.model}};
    put(tree, "hours", unit.hours);
    if (unit.display_step_cmH2O != UnitUnderTest{}.display_step_cmH2O) {
        tree["display_step"] = number(unit.display_step_cmH2O);
    }
    return tree;
}

json tree_of_sequence(const std::vector<Step>& sequence)
{
    json tree = json::array();
    for (const auto step : sequence) {
        tree.push_back(word_of(step));
    }
    return tree;
}

std::string on_off(bool on) { return on ? "on" : "off"; }

} // namespace

json to_json(const Preset& preset)
{
    json tree = {{"name", preset.name},
                 {"insufflation", tree_of(preset.insufflation)},
                 {"exsufflation", tree_of(preset.exsufflation)},
                 {"pause", tree_of(preset.pause)}};
    if (preset.flow) {
        tree["flow"] = tree_of(*preset.flow, preset.flow_as_labelled);
    }
    if (preset.trigger_on) {
        tree["trigger"] = on_off(*preset.trigger_on);
    }
    if (preset.sequence != Preset{}.sequence) {
        tree["sequence"] = tree_of_sequence(preset.sequence);
    }
    if (preset.oscillation) {
        tree["oscillation"] = tree_of(*preset.oscillation);
    }
    if (preset.series) {
        tree["series"] = tree_of(*preset.series);
    }
    return tree;
}

json to_json(const Settings& settings)
{
    json tree = json::object();
    const auto phase = [&](const char* key, const std::optional<double>& pressure, const std::optional<double>& time) {
        if (pressure || time) {
            tree[key] = json::object();
            put(tree[key], "pressure", pressure);
            put(tree[key], "duration", time);
        }
    };
    phase("insufflation", settings.insufflation_pressure, settings.insufflation_duration);
    phase("exsufflation", settings.exsufflation_pressure, settings.exsufflation_duration);
    phase("pause", settings.pause_pressure, settings.pause_duration);
    if (settings.flow) {
        tree["flow"] = word_of(*settings.flow);
    }
    if (settings.trigger_on) {
        tree["trigger"] = on_off(*settings.trigger_on);
    }
    if (settings.oscillation_on) {
        tree["oscillation"] =
            *settings.oscillation_on && settings.oscillation ? tree_of(*settings.oscillation) : json("off");
    }
    if (settings.series) {
        tree["series"] = tree_of(*settings.series);
    }
    put(tree, "mode", settings.mode);
    if (settings.alarms_on) {
        tree["alarms"] = on_off(*settings.alarms_on);
    }
    return tree;
}

json to_json(const Tolerances& tolerances)
{
    json tree = json::object();
    const auto& basis = tolerances.basis;
    put(tree, "basis", basis);
    put(tree, "approved_by", tolerances.approved_by);
    put(tree, "pressure", tolerances.pressure, basis);
    put_phase(tree, "pressure", "insufflation", tolerances.insufflation_pressure, basis);
    put_phase(tree, "pressure", "exsufflation", tolerances.exsufflation_pressure, basis);
    put(tree, "duration", tolerances.duration, basis);
    put_phase(tree, "duration", "insufflation", tolerances.insufflation_duration, basis);
    put_phase(tree, "duration", "exsufflation", tolerances.exsufflation_duration, basis);
    put_phase(tree, "duration", "pause", tolerances.pause_duration, basis);
    put(tree, "residual", tolerances.residual, basis);
    put(tree, "zero", tolerances.zero, basis);
    put(tree, "display", tolerances.display, basis);
    put(tree, "oscillation_frequency", tolerances.oscillation_frequency, basis);
    put(tree, "oscillation_amplitude", tolerances.oscillation_amplitude, basis);
    if (tolerances.peak_limit_cmH2O) {
        tree["limits"] = {{"peak", number(*tolerances.peak_limit_cmH2O)}};
    }
    return tree;
}

json to_json(const HouseProfile& house)
{
    json tree = {{"basis", house.basis},
                 {"limits",
                  {{"zero_offset", number(house.zero_offset_cmH2O)},
                   {"zero_drift", number(house.zero_drift_cmH2O)},
                   {"leak", number(house.leak_cmH2O_per_s)},
                   {"peak_hold", number(house.peak_hold_s)},
                   {"battery", number(house.battery_cmH2O)}}}};
    put(tree, "approved_by", house.approved_by);
    tree["tolerances"] = to_json(house.tolerances);
    return tree;
}

json to_json(const WorkOrder& order)
{
    json tree = {{"schema", "zeroline/work-order/1"},
                 {"work_order", order.work_order},
                 {"occasion", word_of(order.occasion)},
                 {"unit", tree_of_unit(order.unit)},
                 {"decision_rule", metrology::word_of(order.decision_rule)},
                 {"cycles", order.cycles},
                 {"lead_cycles", order.lead_cycles}};
    put(tree, "customer", order.customer);
    put(tree, "contact", order.contact);
    auto& prescription = tree["prescription"] = {{"reference", order.reference}, {"presets", json::array()}};
    put(prescription, "ordered_on", order.ordered_on);
    for (const auto& preset : order.presets) {
        prescription["presets"].push_back(to_json(preset));
    }
    if (auto tolerances = to_json(order.tolerances); !tolerances.empty()) {
        tree["tolerances"] = std::move(tolerances);
    }
    return tree;
}

} // namespace zeroline::verification
