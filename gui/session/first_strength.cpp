#include "gui/session/first_strength.hpp"

#include "acquisition/trace/input_error.hpp"
#include "analysis/verification/civil_time.hpp"
#include "gui/records/json_file.hpp"
#include "gui/register/unit_register.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace zeroline::session {

namespace fs = std::filesystem;
using nlohmann::json;
using trace::InputError;
using verification::FirstStrength;

namespace {

constexpr double kSame_mm = 0.01;

std::string text_at(const json& tree, const char* pointer)
{
    const auto place = json::json_pointer(pointer);
    return tree.contains(place) && tree.at(place).is_string() ? tree.at(place).get<std::string>() : std::string();
}

std::optional<double> share_in(const json& strength, const char* phase)
{
    for (const auto& one : strength) {
        if (one.value("phase", "") == phase) {
            return one.value("share", 0.0);
        }
    }
    return std::nullopt;
}

std::optional<FirstStrength> handed_on(const json& record)
{
    const auto place = json::json_pointer("/run/first_strength");
    if (!record.contains(place)) {
        return std::nullopt;
    }
    const auto& tree = record.at(place);
    const auto share = [&](const char* key) {
        return tree.contains(key) ? std::optional(tree.at(key).get<double>()) : std::nullopt;
    };
    return FirstStrength{tree.at("on"), tree.at("record"), tree.at("diameter"), share("insufflation"),
                         share("exsufflation")};
}

std::optional<FirstStrength> own_of(const json& record, const fs::path& folder)
{
    const auto found = record.find("strength");
    if (found == record.end() || !found->is_array() || found->empty()) {
        return std::nullopt;
    }
    const auto number = text_at(record, "/issue/record_number");
    return FirstStrength{verification::day_of(text_at(record, "/run/began")),
                         number.empty() ? folder.filename().string() : number,
                         found->front().at("orifice").at("diameter"), share_in(*found, "insufflation"),
                         share_in(*found, "exsufflation")};
}

bool is_of(const FirstStrength& first, const std::vector<RunStep>& steps)
{
    return std::any_of(steps.begin(), steps.end(), [&](const RunStep& step) {
        return step.orifice && std::fabs(step.orifice->diameter_mm - first.diameter_mm) < kSame_mm;
    });
}

} // namespace

FirstStrength first_strength_in(const fs::path& record, const std::string& asset)
{
    const auto file = record / "record.json";
    const auto tree = records::load_json(file);
    if (const auto other = text_at(tree, "/unit/asset"); other != asset) {
        throw InputError(file.string(), "a record of unit '" + other + "'", "one of '" + asset + "'");
    }
    const auto handed = handed_on(tree);
    const auto first = handed ? handed : own_of(tree, record);
    if (!first) {
        throw InputError(file.string(), "no strength with an orifice", "a record in which it was tested");
    }
    return *first;
}

std::optional<FirstStrength> known_first_strength(const std::vector<RunStep>& steps, const std::string& asset,
                                                  verification::Origin origin, const unit_register::Bench& bench)
{
    if (std::none_of(steps.begin(), steps.end(), [](const RunStep& step) { return step.orifice.has_value(); })) {
        return std::nullopt;
    }
    try {
        const auto units = unit_register::UnitRegister::open(unit_register::register_place(bench));
        for (const auto& visit : units.history(asset)) {
            if (visit.value("origin", "") != verification::word_of(origin) || !visit["folder"].is_string()) {
                continue;
            }
            try {
                const auto first = first_strength_in(visit["folder"].get<std::string>(), asset);
                if (is_of(first, steps)) {
                    return first;
                }
            } catch (const InputError&) {
                continue; // it was not tested so, or its folder is elsewhere by now
            }
        }
    } catch (const InputError&) {
        return std::nullopt; // the unit is new, or the register cannot be used: the record says that nothing is known
    }
    return std::nullopt;
}

} // namespace zeroline::session
