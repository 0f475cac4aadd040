#include "analysis/verification/procedure.hpp"

#include "acquisition/trace/json_reader.hpp"
#include "analysis/verification/run_log.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace zeroline::verification {

namespace {

using trace::JsonReader;
using Kind = ProcedureStep::Kind;

constexpr std::size_t kMostSteps = 200;
constexpr double kLongestRest_s = 600.0;
constexpr double kHighestValue = 1e9;

struct KnownStep {
    std::string_view word;
    Kind kind;
};
constexpr std::array<KnownStep, 17> kKnown{{{"nobody-connected", Kind::nobody_connected},
                                            {"settings-found", Kind::settings_found},
                                            {"confirm", Kind::confirm},
                                            {"check", Kind::check},
                                            {"value", Kind::value},
                                            {"zero", Kind::zero},
                                            {"instrument-check", Kind::instrument_check},
                                            {"leak-test", Kind::leak_test},
                                            {"plug", Kind::plug},
                                            {"each-preset", Kind::each_preset},
                                            {"manual", Kind::manual},
                                            {"automatic", Kind::automatic},
                                            {"rest", Kind::rest},
                                            {"ladder", Kind::ladder},
                                            {"strength", Kind::strength},
                                            {"zero-again", Kind::zero_again},
                                            {"hand-back", Kind::hand_back}}};

Kind kind_at(const JsonReader& at)
{
    const auto word = at.text();
    const auto* const found =
        std::find_if(kKnown.begin(), kKnown.end(), [&](const KnownStep& one) { return one.word == word; });
    if (found == kKnown.end()) {
        std::string words;
        for (const auto& one : kKnown) {
            words += (words.empty() ? "" : ", ") + std::string(one.word);
        }
        at.refuse(at.described(), "one of " + words);
    }
    return found->kind;
}

std::string_view word_of(Kind kind) { return kKnown.at(static_cast<std::size_t>(kind)).word; }

void read_value(const JsonReader& at, ProcedureStep& step)
{
    at.object_with_only({"kind", "item", "say", "unit", "low", "high", "basis"});
    step.item = at.at("item").filled_text();
    step.unit = at.at("unit").text();
    if (const auto low = at.find("low")) {
        step.low = low->number(-kHighestValue, kHighestValue);
    }
    if (const auto high = at.find("high")) {
        step.high = high->number(-kHighestValue, kHighestValue);
    }
    if (step.low && step.high && *step.low > *step.high) {
        at.at("high").refuse(at.at("high").described(), "at least low, " + at.at("low").described());
    }
    if (step.low || step.high) {
        step.basis = at.at("basis").filled_text();
    }
}

constexpr double kLowest_cmH2O = 5.0, kHighest_cmH2O = 70.0; ///< of a ladder
constexpr double kSmallestRise_cmH2O = 3.0, kLargestRise_cmH2O = 30.0;
constexpr double kShortestPhase_s = 0.5, kLongestPhase_s = 5.0;
constexpr std::size_t kMostDurations = 12;
constexpr int kMostCycles = 20;

void read_ladder(const JsonReader& at, ProcedureStep& step)
{
    at.object_with_only({"kind", "from", "rise", "to", "durations", "cycles"});
    step.from_cmH2O = at.at("from").number(kLowest_cmH2O, kHighest_cmH2O);
    step.rise_cmH2O = at.at("rise").number(kSmallestRise_cmH2O, kLargestRise_cmH2O);
    if (const auto to = at.find("to")) {
        step.to_cmH2O = to->number(step.from_cmH2O, kHighest_cmH2O);
    }
    if (const auto durations = at.find("durations")) {
        for (const auto& one : durations->elements()) {
            step.durations_s.push_back(one.number(kShortestPhase_s, kLongestPhase_s));
        }
        if (step.durations_s.size() > kMostDurations) {
            durations->refuse(std::to_string(step.durations_s.size()) + " durations",
                              "at most " + std::to_string(kMostDurations));
        }
    }
    if (const auto cycles = at.find("cycles")) {
        step.cycles = static_cast<int>(cycles->integer(1, kMostCycles));
    }
}

constexpr double kNearestPoint_cmH2O = 5.0, kFarthestPoint_cmH2O = 200.0;
constexpr int kLongestInterval_days = 3660;
constexpr std::size_t kMostPoints = 20;

void read_points(const JsonReader& at, ProcedureStep& step)
{
    step.points_cmH2O.clear();
    std::size_t above = 0;
    for (const auto& one : at.elements()) {
        const double point = one.number(-kFarthestPoint_cmH2O, kFarthestPoint_cmH2O);
        if (point > -kNearestPoint_cmH2O && point < kNearestPoint_cmH2O) {
            one.refuse(one.described(), "a pressure of 5 cmH2O or more, either way");
        }
        above += point > 0.0 ? 1 : 0;
        step.points_cmH2O.push_back(point);
    }
    const auto all = step.points_cmH2O.size();
    if (above < 2 || all - above < 2 || all > kMostPoints) {
        at.refuse(std::to_string(above) + " above zero and " + std::to_string(all - above) + " below",
                  "two points of each sign at least, 20 at most");
    }
}

void read_instrument_check_step(const JsonReader& at, ProcedureStep& step)
{
    at.object_with_only({"kind", "points", "limit", "basis", "every_days"});
    if (const auto points = at.find("points")) {
        read_points(*points, step);
    }
    step.basis = "house figure";
    if (const auto limit = at.find("limit")) {
        step.limit_cmH2O = limit->number(0.01, kFarthestPoint_cmH2O);
        step.basis = at.at("basis").filled_text();
    } else if (at.has("basis")) {
        at.at("basis").refuse("a basis without a limit", "both, or neither: 1 cmH2O, a house figure");
    }
    if (const auto days = at.find("every_days")) {
        step.every_days = static_cast<int>(days->integer(1, kLongestInterval_days));
    }
}

void read_strength(const JsonReader& at, ProcedureStep& step)
{
    at.object_with_only({"kind", "orifice", "diameter", "cycles"});
    step.orifice = at.at("orifice").filled_text();
    step.diameter_mm = at.at("diameter").number(kNarrowestOrifice_mm, kWidestOrifice_mm);
    step.cycles = 3;
    if (const auto cycles = at.find("cycles")) {
        step.cycles = static_cast<int>(cycles->integer(2, kMostCycles));
    }
}

bool may_stand_in_each_preset(Kind kind)
{
    return kind == Kind::manual || kind == Kind::automatic || kind == Kind::confirm || kind == Kind::check ||
           kind == Kind::value || kind == Kind::rest;
}

ProcedureStep read_procedure_step(const JsonReader& at, bool inside);

std::vector<ProcedureStep> read_steps(const JsonReader& at, bool inside)
{
    std::vector<ProcedureStep> steps;
    for (const auto& element : at.elements()) {
        steps.push_back(read_procedure_step(element, inside));
    }
    if (steps.empty() || steps.size() > kMostSteps) {
        at.refuse(std::to_string(steps.size()) + " steps", "1 to " + std::to_string(kMostSteps));
    }
    return steps;
}

void read_keys_of(const JsonReader& at, ProcedureStep& step)
{
    switch (step.kind) {
    case Kind::confirm:
        at.object_with_only({"kind", "say"});
        step.say = at.at("say").filled_text();
        return;
    case Kind::check:
        at.object_with_only({"kind", "item", "say"});
        step.item = at.at("item").filled_text();
        return;
    case Kind::value:
        return read_value(at, step);
    case Kind::each_preset:
        at.object_with_only({"kind", "steps"});
        step.steps = read_steps(at.at("steps"), true);
        return;
    case Kind::automatic:
        at.object_with_only({"kind", "power"});
        if (const auto power = at.find("power")) {
            step.power = power->one_of({"mains", "battery"}) == 0 ? "mains" : "battery";
        }
        return;
    case Kind::rest:
        at.object_with_only({"kind", "seconds"});
        step.seconds = at.at("seconds").number(1.0, kLongestRest_s);
        return;
    case Kind::ladder:
        return read_ladder(at, step);
    case Kind::instrument_check:
        return read_instrument_check_step(at, step);
    case Kind::strength:
        return read_strength(at, step);
    case Kind::nobody_connected:
    case Kind::settings_found:
    case Kind::zero:
    case Kind::leak_test:
    case Kind::plug:
    case Kind::manual:
    case Kind::zero_again:
    case Kind::hand_back:
        at.object_with_only({"kind"});
        return;
    }
}

ProcedureStep read_procedure_step(const JsonReader& at, bool inside)
{
    ProcedureStep step;
    step.kind = kind_at(at.at("kind"));
    if (inside && !may_stand_in_each_preset(step.kind)) {
        at.at("kind").refuse(at.at("kind").described(),
                             "manual, automatic, confirm, check, value or rest in the steps of each-preset");
    }
    if (!inside && (step.kind == Kind::manual || step.kind == Kind::automatic)) {
        at.at("kind").refuse(at.at("kind").described(), "it in the steps of each-preset only");
    }
    read_keys_of(at, step);
    if (const auto say = at.find("say")) {
        step.say = say->filled_text();
    }
    return step;
}

/// The steps that every procedure has, once, in this order; what else there is stands between them.
constexpr std::array kFrame{Kind::nobody_connected, Kind::settings_found, Kind::zero,     Kind::plug,
                            Kind::each_preset,      Kind::zero_again,     Kind::hand_back};

std::string frame_words()
{
    std::string words;
    for (const auto kind : kFrame) {
        words += (words.empty() ? "" : ", ") + std::string(word_of(kind));
    }
    return words;
}

/// Each word of the frame at its place: the next one that is due, and never another.
void refuse_another_order(const JsonReader& at, const std::vector<ProcedureStep>& steps)
{
    std::size_t due = 0;
    const auto places = at.elements();
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto kind = steps[i].kind;
        if (std::find(kFrame.begin(), kFrame.end(), kind) == kFrame.end()) {
            if (kind == Kind::rest && due <= 3) {
                places[i].at("kind").refuse("rest before the plug", "it after the unit has run");
            }
            if ((kind == Kind::ladder || kind == Kind::strength) && due != 5) {
                places[i].at("kind").refuse(std::string(word_of(kind)) + " here",
                                            "it between each-preset and zero-again: what is prescribed is run before "
                                            "anything else");
            }
            if ((kind == Kind::instrument_check || kind == Kind::leak_test) && due != 3) {
                places[i].at("kind").refuse(std::string(word_of(kind)) + " here",
                                            "it between zero and plug: without the unit, against the zero just read");
            }
            if (due == kFrame.size()) {
                places[i].refuse(std::string(word_of(kind)) + " after hand-back", "hand-back as the last step");
            }
            continue;
        }
        if (due == kFrame.size() || kind != kFrame.at(due)) {
            const auto expected = due == kFrame.size() ? "hand-back as the last step"
                                                       : "first " + std::string(word_of(kFrame.at(due))) +
                                                             "; each of these once, in this order: " + frame_words();
            places[i].at("kind").refuse(places[i].at("kind").described() + " here", expected);
        }
        ++due;
    }
    if (due < kFrame.size()) {
        at.refuse("no step " + std::string(word_of(kFrame.at(due))), frame_words() + ", each once");
    }
}

void refuse_presets_without_automatic(const JsonReader& at, const std::vector<ProcedureStep>& steps)
{
    const auto places = at.elements();
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto& inner = steps[i].steps;
        const bool runs = std::any_of(inner.begin(), inner.end(),
                                      [](const ProcedureStep& one) { return one.kind == Kind::automatic; });
        if (steps[i].kind == Kind::each_preset && !runs) {
            places[i].at("steps").refuse("no step automatic", "at least one: without it there is nothing to judge");
        }
    }
}

void gather_items(const JsonReader& at, const std::vector<ProcedureStep>& steps, std::vector<std::string>& items)
{
    const auto places = at.elements();
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (!steps[i].item.empty()) {
            if (std::find(items.begin(), items.end(), steps[i].item) != items.end()) {
                places[i].at("item").refuse(places[i].at("item").described() + " a second time",
                                            "an item that no other step has");
            }
            items.push_back(steps[i].item);
        }
        if (!steps[i].steps.empty()) {
            gather_items(places[i].at("steps"), steps[i].steps, items);
        }
    }
}

} // namespace

Procedure parse_procedure(const nlohmann::json& tree)
{
    const JsonReader at(tree);
    at.schema("zeroline/procedure", 1);
    at.object_with_only({"schema", "name", "revision", "occasion", "steps"});
    Procedure procedure;
    procedure.name = at.at("name").filled_text();
    procedure.revision = at.at("revision").filled_text();
    if (const auto occasion = at.find("occasion")) {
        procedure.occasion = occasion_at(*occasion);
    }
    procedure.steps = read_steps(at.at("steps"), false);
    refuse_another_order(at.at("steps"), procedure.steps);
    refuse_presets_without_automatic(at.at("steps"), procedure.steps);
    std::vector<std::string> items;
    gather_items(at.at("steps"), procedure.steps, items);
    return procedure;
}

bool fits(const Procedure& procedure, Occasion occasion) { return procedure.occasion.value_or(occasion) == occasion; }

std::vector<std::string> checklist_items(const Procedure& procedure)
{
    std::vector<std::string> items;
    const auto take = [&](const ProcedureStep& step) {
        if (!step.item.empty()) {
            items.push_back(step.item);
        }
    };
    for (const auto& step : procedure.steps) {
        take(step);
        std::for_each(step.steps.begin(), step.steps.end(), take);
    }
    return items;
}

} // namespace zeroline::verification
