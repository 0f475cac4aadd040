#include "analysis/verification/bench_file.hpp"

#include "acquisition/trace/json_reader.hpp"
#include "analysis/verification/tolerance_reader.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

using nlohmann::json;
using trace::JsonReader;

std::string read_language(const JsonReader& at)
{
    const auto tag = at.text();
    const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
    const bool primary = tag.size() >= 2 && letter(tag[0]) && letter(tag[1]);
    const bool region = tag.size() == 5 && (tag[2] == '-' || tag[2] == '_') && letter(tag[3]) && letter(tag[4]);
    if (!primary || !(tag.size() == 2 || region)) {
        at.refuse(at.tree().dump(), "a language tag such as \"en\" or \"de-AT\"");
    }
    return tag;
}

Duty read_duty(const JsonReader& at)
{
    at.object_with_only({"cycling_s", "rest_s"});
    Duty duty;
    if (const auto cycling = at.find("cycling_s")) {
        duty.cycling_s = cycling->number(10.0, 3600.0);
    }
    if (const auto rest = at.find("rest_s")) {
        duty.rest_s = rest->number(0.0, 3600.0);
    }
    return duty;
}

void read_texts(const JsonReader& at, Bench& bench)
{
    const auto text = [&](const char* key, std::string& onto) {
        if (const auto place = at.find(key)) {
            onto = place->text();
        }
    };
    text("organisation", bench.organisation);
    text("address", bench.address);
    text("register", bench.register_url);
    text("key_file", bench.key_file);
}

void put(json& onto, const char* key, const std::string& text)
{
    if (!text.empty()) {
        onto[key] = text;
    }
}

} // namespace

Bench parse_bench(const json& tree)
{
    const JsonReader at(tree);
    at.schema("zeroline/bench", 1);
    at.object_with_only({"schema", "organisation", "address", "house", "register", "language", "decimal_mark",
                         "key_file", "sounds", "duty", "interval_months"});
    Bench bench;
    read_texts(at, bench);
    if (const auto house = at.find("house")) {
        bench.house = read_house_profile(*house);
    }
    if (const auto language = at.find("language")) {
        bench.language = read_language(*language);
    }
    if (const auto mark = at.find("decimal_mark")) {
        bench.decimal_mark = mark->one_of({".", ","}) == 0 ? '.' : ',';
    }
    if (const auto sounds = at.find("sounds")) {
        bench.sounds = sounds->boolean();
    }
    if (const auto duty = at.find("duty")) {
        bench.duty = read_duty(*duty);
    }
    if (const auto interval = at.find("interval_months")) {
        constexpr long long longest = 120;
        bench.interval_months = static_cast<int>(interval->integer(1, longest));
    }
    return bench;
}

json to_json(const Bench& bench)
{
    json tree = {{"schema", "zeroline/bench/1"},
                 {"house", to_json(bench.house)},
                 {"decimal_mark", std::string(1, bench.decimal_mark)},
                 {"sounds", bench.sounds},
                 {"duty", {{"cycling_s", bench.duty.cycling_s}, {"rest_s", bench.duty.rest_s}}}};
    if (bench.interval_months) {
        tree["interval_months"] = *bench.interval_months;
    }
    put(tree, "organisation", bench.organisation);
    put(tree, "address", bench.address);
    put(tree, "register", bench.register_url);
    put(tree, "language", bench.language);
    put(tree, "key_file", bench.key_file);
    return tree;
}

} // namespace zeroline::verification
