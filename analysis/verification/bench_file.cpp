#include "analysis/verification/bench_file.hpp"

#include "acquisition/trace/json_reader.hpp"
#include "analysis/verification/tolerance_reader.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

using nlohmann::json;
using trace::JsonReader;

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

SecondGauge read_second_gauge(const JsonReader& at)
{
    constexpr double widest = 200.0;
    at.object_with_only({"name", "certificate", "uncertainty", "unit"});
    SecondGauge gauge;
    gauge.name = at.at("name").filled_text();
    gauge.uncertainty = at.at("uncertainty").number(0.0, widest);
    if (const auto certificate = at.find("certificate")) {
        gauge.certificate = certificate->text();
    }
    if (const auto unit = at.find("unit")) {
        const auto known = trace::pressure_unit_named(unit->text());
        gauge.unit =
            known ? *known
                  : (unit->refuse(unit->described(), "a unit of pressure such as cmH2O, hPa or mmHg"), gauge.unit);
    }
    return gauge;
}

json tree_of(const SecondGauge& gauge)
{
    return {{"name", gauge.name},
            {"certificate", gauge.certificate},
            {"uncertainty", gauge.uncertainty},
            {"unit", std::string(trace::name_of(gauge.unit))}};
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
    // The last four never did anything. They are accepted, since files and sealed records have them.
    at.object_with_only({"schema", "organisation", "address", "house", "key_file", "duty", "second_gauge",
                         "interval_months", "register", "language", "decimal_mark", "sounds"});
    Bench bench;
    read_texts(at, bench);
    if (const auto house = at.find("house")) {
        bench.house = read_house_profile(*house);
    }
    if (const auto duty = at.find("duty")) {
        bench.duty = read_duty(*duty);
    }
    if (const auto gauge = at.find("second_gauge")) {
        bench.second_gauge = read_second_gauge(*gauge);
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
                 {"duty", {{"cycling_s", bench.duty.cycling_s}, {"rest_s", bench.duty.rest_s}}}};
    if (bench.interval_months) {
        tree["interval_months"] = *bench.interval_months;
    }
    if (bench.second_gauge) {
        tree["second_gauge"] = tree_of(*bench.second_gauge);
    }
    put(tree, "organisation", bench.organisation);
    put(tree, "address", bench.address);
    put(tree, "key_file", bench.key_file);
    return tree;
}

} // namespace zeroline::verification
