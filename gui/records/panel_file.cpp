#include "gui/records/panel_file.hpp"

#include "acquisition/trace/json_reader.hpp"
#include "analysis/verification/preset_reader.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/schemas.hpp"

namespace zeroline::records {

using trace::JsonReader;
using verification::Displayed;
using verification::Shows;

namespace {

std::optional<double> pressure_at(const JsonReader& place, const char* key)
{
    constexpr double highest_cmH2O = 200.0;
    const auto member = place.at(key);
    return member.tree().is_null() ? std::nullopt : std::optional(member.number(-highest_cmH2O, highest_cmH2O));
}

Displayed read_displayed(const JsonReader& place, const std::string& preset)
{
    place.object_with_only({"insufflation", "exsufflation", "shows"});
    Displayed displayed;
    displayed.preset = preset;
    displayed.insufflation_cmH2O = pressure_at(place, "insufflation");
    displayed.exsufflation_cmH2O = pressure_at(place, "exsufflation");
    constexpr Shows words[] = {Shows::live, Shows::cycle_peak, Shows::setting, Shows::none, Shows::not_read};
    displayed.shows = words[place.at("shows").one_of({"live", "cycle-peak", "setting", "none", "not-read"})];
    if (!displayed.insufflation_cmH2O && !displayed.exsufflation_cmH2O) {
        displayed.shows = Shows::not_read;
    }
    return displayed;
}

Panel read_panel(const nlohmann::json& tree, const verification::WorkOrder& order)
{
    const JsonReader root(tree);
    root.object_with_only({"schema", "asset", "doing", "preset", "presets"}).schema("zeroline/panel", 1);
    const auto presets = root.at("presets");
    Panel panel;
    for (const auto& preset : order.presets) {
        const auto place = presets.at(preset.name);
        place.object_with_only({"set", "displayed"});
        panel.set[preset.name] = verification::read_settings(place.at("set"));
        panel.displayed.push_back(read_displayed(place.at("displayed"), preset.name));
    }
    return panel;
}

} // namespace

Panel load_panel(const std::filesystem::path& file, const verification::WorkOrder& order)
{
    const auto tree = load_json(file);
    return reading(file, [&] {
        check_schema(tree, "panel");
        return read_panel(tree, order);
    });
}

} // namespace zeroline::records
