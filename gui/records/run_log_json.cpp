#include "gui/records/run_log_json.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::records {

using nlohmann::ordered_json;
using namespace verification;

namespace {

template <typename T> void put(ordered_json& tree, const char* key, const std::optional<T>& value)
{
    if (value) {
        tree[key] = *value;
    }
}

void put_text(ordered_json& tree, const char* key, const std::string& text)
{
    if (!text.empty()) {
        tree[key] = text;
    }
}

ordered_json phase(const std::optional<double>& pressure, const std::optional<double>& duration)
{
    auto tree = ordered_json::object();
    put(tree, "pressure", pressure);
    put(tree, "duration", duration);
    return tree;
}

void put_filled(ordered_json& tree, const char* key, ordered_json member)
{
    if (!member.empty()) {
        tree[key] = std::move(member);
    }
}

const char* text_of(During during)
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

const char* text_of(Shows shows)
{
    switch (shows) {
    case Shows::live:
        return "live";
    case Shows::cycle_peak:
        return "cycle-peak";
    case Shows::setting:
        return "setting";
    case Shows::none:
        return "none";
    case Shows::not_read:
        break;
    }
    return "not-read";
}

const char* text_of(ChecklistItem::Outcome outcome)
{
    switch (outcome) {
    case ChecklistItem::Outcome::ok:
        return "ok";
    case ChecklistItem::Outcome::not_ok:
        return "not-ok";
    case ChecklistItem::Outcome::not_applicable:
        break;
    }
    return "not-applicable";
}

ordered_json to_json(const Span& span)
{
    ordered_json tree;
    tree["what"] = verification::word_of(span.what);
    put_text(tree, "preset", span.preset);
    tree["from_s"] = span.from_s;
    tree["to_s"] = span.to_s;
    if (span.set) {
        tree["set"] = records::to_json(*span.set);
    }
    for (const auto step : span.asked) {
        tree["asked"].push_back(verification::word_of(step));
    }
    put_text(tree, "power", span.power);
    put(tree, "from_count", span.from_count);
    put(tree, "to_count", span.to_count);
    return tree;
}

ordered_json to_json(const Displayed& displayed)
{
    ordered_json tree;
    tree["preset"] = displayed.preset;
    put(tree, "insufflation", displayed.insufflation_cmH2O);
    put(tree, "exsufflation", displayed.exsufflation_cmH2O);
    tree["shows"] = text_of(displayed.shows);
    return tree;
}

ordered_json to_json(const std::map<std::string, Settings>& settings)
{
    auto tree = ordered_json::object();
    for (const auto& [preset, values] : settings) {
        tree[preset] = records::to_json(values);
    }
    return tree;
}

ordered_json to_json(const Environment& environment)
{
    auto tree = ordered_json::object();
    put(tree, "temperature_C", environment.temperature_C);
    put(tree, "pressure_hPa", environment.pressure_hPa);
    put(tree, "humidity_percent", environment.humidity_percent);
    return tree;
}

void put_checklist(ordered_json& tree, const std::vector<ChecklistItem>& checklist)
{
    for (const auto& item : checklist) {
        ordered_json entry;
        entry["item"] = item.item;
        entry["outcome"] = text_of(item.outcome);
        entry["remark"] = item.remark;
        tree["checklist"].push_back(std::move(entry));
    }
}

void put_displayed(ordered_json& tree, const std::optional<std::vector<Displayed>>& displayed)
{
    if (displayed) {
        tree["displayed"] = ordered_json::array();
        for (const auto& one : *displayed) {
            tree["displayed"].push_back(to_json(one));
        }
    }
}

} // namespace

ordered_json to_json(const Settings& settings)
{
    auto tree = ordered_json::object();
    put_filled(tree, "insufflation", phase(settings.insufflation_pressure, settings.insufflation_duration));
    put_filled(tree, "exsufflation", phase(settings.exsufflation_pressure, settings.exsufflation_duration));
    put_filled(tree, "pause", phase(settings.pause_pressure, settings.pause_duration));
    if (settings.flow) {
        tree["flow"] = *settings.flow == Flow::full ? "full" : "reduced";
    }
    if (settings.trigger_on) {
        tree["trigger"] = *settings.trigger_on ? "on" : "off";
    }
    if (settings.oscillation) {
        tree["oscillation"] = {{"frequency", settings.oscillation->frequency_hz},
                               {"amplitude", settings.oscillation->amplitude_cmH2O},
                               {"during", text_of(settings.oscillation->during)}};
    } else if (settings.oscillation_on) {
        tree["oscillation"] = *settings.oscillation_on ? "on" : "off";
    }
    return tree;
}

ordered_json to_json(const RunLog& log, const Environment& environment)
{
    ordered_json tree;
    tree["schema"] = "zeroline/run/1";
    put_text(tree, "operator", log.run_operator);
    put_text(tree, "place", log.place);
    put_text(tree, "began", log.began);
    put(tree, "attempt", log.attempt);
    tree["spans"] = ordered_json::array();
    for (const auto& span : log.spans) {
        tree["spans"].push_back(to_json(span));
    }
    tree["confirmed"] = log.confirmed;
    put_displayed(tree, log.displayed);
    if (log.settings_found) {
        tree["settings_found"] = to_json(*log.settings_found);
    }
    if (log.settings_left) {
        tree["settings_left"] = to_json(*log.settings_left);
    }
    put(tree, "restored", log.restored);
    if (log.origin) {
        tree["origin"] = verification::word_of(*log.origin);
    }
    put_checklist(tree, log.checklist);
    put_filled(tree, "environment", to_json(environment));
    return tree;
}

} // namespace zeroline::records
