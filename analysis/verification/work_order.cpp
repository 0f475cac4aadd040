#include "analysis/verification/work_order.hpp"

#include "acquisition/trace/json_reader.hpp"
#include "analysis/verification/preset_reader.hpp"
#include "analysis/verification/tolerance_reader.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

using trace::InputError;
using trace::JsonReader;

UnitUnderTest read_unit(const JsonReader& at)
{
    at.object_with_only({"asset", "serial", "model", "hours", "display_step"});
    UnitUnderTest unit;
    unit.asset = at.at("asset").filled_text();
    unit.serial = at.at("serial").filled_text();
    unit.model = at.at("model").filled_text();
    if (const auto hours = at.find("hours")) {
        unit.hours = hours->number(0.0, 1e6);
    }
    if (const auto step = at.find("display_step")) {
        unit.display_step_cmH2O = step->number(0.001, 10.0);
    }
    return unit;
}

std::vector<Preset> read_presets(const JsonReader& at)
{
    std::vector<Preset> presets;
    for (const auto& element : at.elements()) {
        auto preset = read_preset(element);
        const auto same = [&](const Preset& other) { return other.name == preset.name; };
        if (std::any_of(presets.begin(), presets.end(), same)) {
            element.at("name").refuse("\"" + preset.name + "\" a second time", "a name that no other preset has");
        }
        presets.push_back(std::move(preset));
    }
    if (presets.empty() || presets.size() > 20) {
        at.refuse(std::to_string(presets.size()) + " presets", "1 to 20 presets");
    }
    return presets;
}

void read_prescription(const JsonReader& at, WorkOrder& order)
{
    at.object_with_only({"reference", "ordered_on", "presets"});
    order.reference = at.at("reference").filled_text();
    if (const auto date = at.find("ordered_on")) {
        order.ordered_on = date->date();
    }
    order.presets = read_presets(at.at("presets"));
}

void read_rule(const JsonReader& at, WorkOrder& order)
{
    order.decision_rule =
        at.at("decision_rule").one_of({"simple", "guarded"}) == 0 ? metrology::Rule::simple : metrology::Rule::guarded;
    order.cycles = static_cast<int>(at.at("cycles").integer(1, 1000));
    if (const auto lead = at.find("lead_cycles")) {
        order.lead_cycles = static_cast<int>(lead->integer(0, 100));
    }
}

} // namespace

const Preset* WorkOrder::preset(const std::string& name) const
{
    const auto it = std::find_if(presets.begin(), presets.end(), [&](const Preset& p) { return p.name == name; });
    return it == presets.end() ? nullptr : &*it;
}

WorkOrder parse_work_order(const nlohmann::json& tree)
{
    const JsonReader at(tree);
    at.schema("zeroline/work-order", 1);
    at.object_with_only({"schema", "work_order", "occasion", "customer", "unit", "prescription", "tolerances",
                         "decision_rule", "cycles", "lead_cycles", "contact"});
    WorkOrder order;
    order.work_order = at.at("work_order").filled_text();
    order.occasion = occasion_at(at.at("occasion"));
    if (const auto customer = at.find("customer")) {
        order.customer = customer->text();
    }
    if (const auto contact = at.find("contact")) {
        order.contact = contact->text();
    }
    order.unit = read_unit(at.at("unit"));
    read_prescription(at.at("prescription"), order);
    if (const auto tolerances = at.find("tolerances")) {
        order.tolerances = read_tolerances(*tolerances);
    }
    read_rule(at, order);
    return order;
}

HouseProfile parse_house_profile(const nlohmann::json& tree, const std::string& pointer)
{
    try {
        return read_house_profile(JsonReader(tree));
    } catch (const InputError& error) {
        throw InputError(pointer + (error.where() == "/" ? "" : error.where()), error.found(), error.expected());
    }
}

Occasion occasion_at(const JsonReader& at)
{
    constexpr Occasion kOccasions[] = {Occasion::pre_delivery, Occasion::periodic, Occasion::home_visit};
    return kOccasions[at.one_of({"pre-delivery", "periodic", "home-visit"})];
}

std::string word_of(Occasion occasion)
{
    switch (occasion) {
    case Occasion::pre_delivery:
        return "pre-delivery";
    case Occasion::periodic:
        return "periodic";
    case Occasion::home_visit:
        break;
    }
    return "home-visit";
}

std::string word_of(Step step)
{
    switch (step) {
    case Step::insufflation:
        return "insufflation";
    case Step::exsufflation:
        return "exsufflation";
    case Step::pause:
        break;
    }
    return "pause";
}

std::string word_of(Flow flow) { return flow == Flow::full ? "full" : "reduced"; }

std::string word_of(During during)
{
    switch (during) {
    case During::insufflation:
        return "insufflation";
    case During::exsufflation:
        return "exsufflation";
    case During::both:
        break;
    }
    return "both";
}

} // namespace zeroline::verification
