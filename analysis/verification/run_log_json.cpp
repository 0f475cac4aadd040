#include "analysis/verification/run_log.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::verification {

namespace {

using nlohmann::json;

template <class T> void put(json& onto, const char* key, const std::optional<T>& value)
{
    if (value) {
        onto[key] = *value;
    }
}

void put(json& onto, const char* key, const std::string& text)
{
    if (!text.empty()) {
        onto[key] = text;
    }
}

json tree_of(const Span& span)
{
    json tree = {{"what", word_of(span.what)}, {"from_s", span.from_s}, {"to_s", span.to_s}};
    put(tree, "preset", span.preset);
    if (span.set) {
        tree["set"] = to_json(*span.set);
    }
    for (const auto step : span.asked) {
        tree["asked"].push_back(word_of(step));
    }
    put(tree, "power", span.power);
    if (span.orifice) {
        tree["orifice"] = {{"name", span.orifice->name}, {"diameter", span.orifice->diameter_mm}};
    }
    put(tree, "from_count", span.from_count);
    put(tree, "to_count", span.to_count);
    return tree;
}

json tree_of(const Displayed& displayed)
{
    json tree = {{"preset", displayed.preset}, {"shows", word_of(displayed.shows)}};
    put(tree, "insufflation", displayed.insufflation_cmH2O);
    put(tree, "exsufflation", displayed.exsufflation_cmH2O);
    return tree;
}

json tree_of(const std::map<std::string, Settings>& settings)
{
    json tree = json::object();
    for (const auto& [name, of_preset] : settings) {
        tree[name] = to_json(of_preset);
    }
    return tree;
}

json tree_of(const ChecklistItem& item)
{
    return {{"item", item.item}, {"outcome", word_of(item.outcome)}, {"remark", item.remark}};
}

json tree_of(const Skipped& skipped)
{
    json tree = {{"what", word_of(skipped.what)}, {"reason", skipped.reason}};
    put(tree, "preset", skipped.preset);
    return tree;
}

json tree_of(const Hose& hose)
{
    json tree = json::object();
    put(tree, "kind", hose.kind);
    put(tree, "length_m", hose.length_m);
    put(tree, "bore_mm", hose.bore_mm);
    return tree;
}

json tree_of(const Environment& environment)
{
    json tree = json::object();
    put(tree, "temperature_C", environment.temperature_C);
    put(tree, "pressure_hPa", environment.pressure_hPa);
    put(tree, "humidity_percent", environment.humidity_percent);
    put(tree, "instrument_on_s", environment.instrument_on_s);
    return tree;
}

json tree_of(const FirstStrength& first)
{
    json tree = {{"on", first.on}, {"record", first.record}, {"diameter", first.diameter_mm}};
    put(tree, "insufflation", first.insufflation);
    put(tree, "exsufflation", first.exsufflation);
    return tree;
}

void put_unit_state(json& tree, const RunLog& run)
{
    if (run.displayed) {
        tree["displayed"] = json::array();
        for (const auto& displayed : *run.displayed) {
            tree["displayed"].push_back(tree_of(displayed));
        }
    }
    if (run.settings_found) {
        tree["settings_found"] = tree_of(*run.settings_found);
    }
    if (run.settings_left) {
        tree["settings_left"] = tree_of(*run.settings_left);
    }
    put(tree, "restored", run.restored);
}

} // namespace

json to_json(const RunLog& run)
{
    json tree = {{"schema", "zeroline/run/1"}, {"spans", json::array()}};
    put(tree, "operator", run.run_operator);
    put(tree, "place", run.place);
    put(tree, "began", run.began);
    put(tree, "attempt", run.attempt);
    if (run.replaces) {
        tree["replaces"] = {
            {"attempt", run.replaces->attempt}, {"cause", run.replaces->cause}, {"evidence", run.replaces->evidence}};
    }
    for (const auto& span : run.spans) {
        tree["spans"].push_back(tree_of(span));
    }
    if (!run.confirmed.empty()) {
        tree["confirmed"] = run.confirmed;
    }
    put_unit_state(tree, run);
    if (run.origin) {
        tree["origin"] = word_of(*run.origin);
    }
    if (run.hose_end) {
        tree["hose_end"] = {{"answer", run.hose_end->nothing_soft ? "nothing-soft" : "something-soft"},
                            {"by", run.hose_end->by},
                            {"at", run.hose_end->at}};
    }
    put(tree, "unlike_in_attempt", run.unlike_in_attempt);
    for (const auto& item : run.checklist) {
        tree["checklist"].push_back(tree_of(item));
    }
    for (const auto& skipped : run.skipped) {
        tree["skipped"].push_back(tree_of(skipped));
    }
    if (run.first_strength) {
        tree["first_strength"] = tree_of(*run.first_strength);
    }
    if (run.disposition) {
        tree["disposition"] = to_json(*run.disposition);
    }
    if (run.hose) {
        tree["hose"] = tree_of(*run.hose);
    }
    if (run.environment) {
        tree["environment"] = tree_of(*run.environment);
    }
    return tree;
}

} // namespace zeroline::verification
