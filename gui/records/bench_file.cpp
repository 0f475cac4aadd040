#include "gui/records/bench_file.hpp"

#include "acquisition/trace/json_reader.hpp"

#include <cstdlib>

namespace zeroline::records {

using trace::JsonReader;

namespace {

void read_organisation(const JsonReader& place, Bench& bench)
{
    place.object_with_only({"name", "address"});
    bench.organisation = place.at("name").filled_text();
    if (const auto address = place.find("address")) {
        bench.address = address->text();
    }
}

DutyLimit read_duty(const JsonReader& place)
{
    constexpr double shortest_s = 10.0;
    constexpr double longest_s = 3600.0;
    place.object_with_only({"cycling", "rest"});
    DutyLimit duty;
    if (const auto cycling = place.find("cycling")) {
        duty.cycling_s = cycling->number(shortest_s, longest_s);
    }
    if (const auto rest = place.find("rest")) {
        duty.rest_s = rest->number(0.0, longest_s);
    }
    return duty;
}

void read_desk(const JsonReader& root, Bench& bench)
{
    if (const auto url = root.find("register")) {
        bench.register_url = url->filled_text();
    }
    if (const auto language = root.find("language")) {
        bench.language = language->filled_text();
    }
    if (const auto mark = root.find("decimal_mark")) {
        bench.decimal_mark = mark->one_of({".", ","}) == 0 ? '.' : ',';
    }
    if (const auto key = root.find("key_file")) {
        bench.key_file = key->filled_text();
    }
    if (const auto sounds = root.find("sounds")) {
        bench.sounds = sounds->boolean();
    }
}

} // namespace

Bench parse_bench(const nlohmann::json& tree)
{
    const JsonReader root(tree);
    root.object_with_only(
        {"schema", "organisation", "house", "duty", "register", "language", "decimal_mark", "key_file", "sounds"});
    root.schema("zeroline/bench", 1);
    Bench bench;
    if (const auto organisation = root.find("organisation")) {
        read_organisation(*organisation, bench);
    }
    if (const auto house = root.find("house")) {
        bench.house = verification::parse_house_profile(house->tree(), house->pointer());
    }
    if (const auto duty = root.find("duty")) {
        bench.duty = read_duty(*duty);
    }
    read_desk(root, bench);
    return bench;
}

nlohmann::ordered_json recorded_part(const nlohmann::json& tree)
{
    nlohmann::ordered_json part;
    for (const auto* key : {"schema", "organisation", "house"}) {
        if (const auto it = tree.find(key); it != tree.end()) {
            part[key] = *it;
        }
    }
    return part;
}

std::optional<std::filesystem::path> usual_bench_file()
{
    std::filesystem::path base;
    if (const char* config = std::getenv("XDG_CONFIG_HOME"); config != nullptr && *config != '\0') {
        base = config;
    } else if (const char* home = std::getenv("HOME"); home != nullptr && *home != '\0') {
        base = std::filesystem::path(home) / ".config";
    } else {
        return std::nullopt;
    }
    auto file = base / "zeroline" / "bench.json";
    std::error_code none;
    if (!std::filesystem::exists(file, none)) {
        return std::nullopt;
    }
    return file;
}

} // namespace zeroline::records
