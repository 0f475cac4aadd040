#include "gui/records/schemas.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/json_file.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>
#include <iterator>

namespace {

using namespace zeroline;
using nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::StartsWith;
namespace fs = std::filesystem;

const fs::path kSchemas = fs::path(ZEROLINE_SOURCE_DIR) / "docs" / "schemas";
const fs::path kDemonstration = fs::path(ZEROLINE_SOURCE_DIR) / "fixtures" / "demonstration";

std::string trouble_with(const json& tree, std::string_view schema)
{
    try {
        records::check_schema(tree, schema);
    } catch (const trace::InputError& error) {
        return error.what();
    }
    return "no trouble";
}

/// The demonstration's file with one value put in.
std::string trouble_with(const std::string& file, std::string_view schema, const char* pointer, const json& value)
{
    auto tree = records::load_json(kDemonstration / file);
    tree[json::json_pointer(pointer)] = value;
    return trouble_with(tree, schema);
}

using Properties = std::vector<std::pair<std::string, json>>;

/// Every value that a schema describes under a name, with its place. An "if" speaks of what is described elsewhere.
void gather_properties(const json& tree, const std::string& place, Properties& found)
{
    for (const auto& [key, value] : tree.items()) {
        if (key == "properties") {
            for (const auto& [name, property] : value.items()) {
                found.emplace_back(place + "/" + name, property);
            }
        }
        if (value.is_structured() && key != "if") {
            gather_properties(value, place + "/" + key, found);
        }
    }
}

Properties all_properties()
{
    Properties found;
    for (const auto& schema : records::shipped_schemas()) {
        gather_properties(records::parse_json(schema.text), std::string(schema.name), found);
    }
    return found;
}

bool may_be_a_number(const json& property)
{
    const auto type = property.value("type", json("any"));
    const auto has = [&](const char* name) { return type == name || std::count(type.begin(), type.end(), name) > 0; };
    return has("number") || has("integer");
}

/// The unit that the end of a name says; empty where it says none.
std::string unit_in(const std::string& name)
{
    static const std::vector<std::pair<std::string, std::string>> endings = {{"_cmH2O_per_s", "cmH2O/s"},
                                                                             {"_cmH2O", "cmH2O"},
                                                                             {"_s", "s"},
                                                                             {"_ms", "ms"},
                                                                             {"_hz", "Hz"},
                                                                             {"_ppm", "ppm"},
                                                                             {"_percent", "%"},
                                                                             {"_hPa", "hPa"},
                                                                             {"_C", "°C"},
                                                                             {"_months", "months"},
                                                                             {"_m", "m"},
                                                                             {"_mm", "mm"}};
    const auto found =
        std::find_if(endings.begin(), endings.end(), [&](const auto& ending) { return name.ends_with(ending.first); });
    return found == endings.end() ? "" : found->second;
}

TEST(Schemas, the_program_carries_every_file_of_the_folder_byte_for_byte)
{
    const auto& shipped = records::shipped_schemas();
    EXPECT_EQ(shipped.size(), static_cast<std::size_t>(std::distance(fs::directory_iterator(kSchemas), {})));
    for (const auto& schema : shipped) {
        EXPECT_EQ(schema.text, records::read_file(kSchemas / (std::string(schema.name) + ".schema.json")))
            << schema.name;
    }
}

TEST(Schemas, take_the_files_of_the_demonstration)
{
    EXPECT_EQ(trouble_with(records::load_json(kDemonstration / "order.json"), "work-order"), "no trouble");
    EXPECT_EQ(trouble_with(records::load_json(kDemonstration / "instrument.json"), "instrument"), "no trouble");
    EXPECT_EQ(trouble_with(records::load_json(kDemonstration / "bench.json"), "bench"), "no trouble");
}

TEST(Schemas, name_an_unknown_key_and_those_that_are_known)
{
    EXPECT_THAT(trouble_with("order.json", "work-order", "/unit/colour", "blue"),
                AllOf(StartsWith("/unit/colour: unknown key; expected one of "), HasSubstr("asset")));
    EXPECT_THAT(trouble_with("instrument.json", "instrument", "/language/bow", 1),
                AllOf(StartsWith("/language/bow: unknown key; "), HasSubstr("separator")));
    EXPECT_THAT(trouble_with("order.json", "work-order", "/a~1b~0c", 1), StartsWith("/a~1b~0c: unknown key; "));
}

TEST(Schemas, name_a_missing_key)
{
    EXPECT_EQ(trouble_with("order.json", "work-order", "/prescription/presets/0", json{{"name", "day"}}),
              "/prescription/presets/0/exsufflation: missing; expected this key");
}

TEST(Schemas, say_what_was_found_and_what_was_expected)
{
    EXPECT_EQ(trouble_with("order.json", "work-order", "/prescription/presets/0/insufflation/pressure", 400),
              "/prescription/presets/0/insufflation/pressure: 400; expected a number from 5 to 70: an insufflation "
              "pressure is positive");
    EXPECT_EQ(trouble_with("order.json", "work-order", "/cycles", 2.5),
              "/cycles: 2.5; expected a whole number from 1 to 1000");
    EXPECT_EQ(trouble_with("order.json", "work-order", "/occasion", "birthday"),
              "/occasion: \"birthday\"; expected one of pre-delivery, periodic, home-visit");
    EXPECT_EQ(trouble_with("order.json", "work-order", "/work_order", ""),
              "/work_order: \"\"; expected a text that is not empty");
    EXPECT_EQ(trouble_with("order.json", "work-order", "/prescription/presets", json::array()),
              "/prescription/presets: an array; expected an array of 1 to 20 elements");
    EXPECT_EQ(trouble_with("order.json", "work-order", "/tolerances/pressure/absolute", 0),
              "/tolerances/pressure/absolute: 0; expected a number above 0, at most 100");
    EXPECT_EQ(trouble_with("instrument.json", "instrument", "/language/kind", "morse"),
              "/language/kind: \"morse\"; expected one of numeric-lines, scpi-query, modbus-rtu, polled-lines");
    EXPECT_EQ(trouble_with("instrument.json", "instrument", "/language/field", 0),
              "/language/field: 0; expected a whole number from 1 to 64 or a text of 1 to 32 characters");
    EXPECT_EQ(
        trouble_with("order.json", "work-order", "/prescription/presets/0/flow", "some"),
        "/prescription/presets/0/flow: \"some\"; expected full, reduced, or an object with class and as_labelled");
}

TEST(Schemas, a_whole_number_may_be_written_with_a_point)
{
    EXPECT_EQ(trouble_with("order.json", "work-order", "/cycles", 5.0), "no trouble");
}

TEST(Schemas, a_newer_version_is_refused_naming_both)
{
    EXPECT_THAT(trouble_with("order.json", "work-order", "/schema", "zeroline/work-order/2"),
                AllOf(StartsWith("/schema: "), HasSubstr("version 2"), HasSubstr("version 1")));
    EXPECT_THAT(trouble_with("order.json", "work-order", "/schema", "zeroline/run/1"),
                HasSubstr("expected \"zeroline/work-order/1\""));
    EXPECT_THAT(trouble_with(json::array(), "work-order"), HasSubstr("an array; expected an object"));
}

TEST(Schemas, remarks_are_allowed_at_the_root_only)
{
    EXPECT_EQ(trouble_with("order.json", "work-order", "/$remark", "x"), "no trouble");
    EXPECT_THAT(trouble_with("order.json", "work-order", "/unit/$remark", "x"), HasSubstr("unknown key"));
}

TEST(Schemas, have_an_absolute_identifier_with_their_version)
{
    for (const auto& schema : records::shipped_schemas()) {
        const auto tree = records::parse_json(schema.text);
        auto name = tree["properties"]["schema"]["const"].get<std::string>(); // "zeroline/work-order/1"
        std::replace(name.begin(), name.end(), '/', ':');
        EXPECT_EQ(tree["$id"], "urn:zeroline:schema:" + name.substr(std::string("zeroline:").size())) << schema.name;
    }
}

TEST(Schemas, describe_every_property_in_a_sentence)
{
    const auto properties = all_properties();
    EXPECT_GT(properties.size(), 600U) << "are the schemas read at all?";
    for (const auto& [place, property] : properties) {
        const auto text = property.value("description", "");
        EXPECT_TRUE(text.size() > 5 && text.ends_with(".")) << place << ": \"" << text << '"';
    }
}

TEST(Schemas, name_the_unit_of_every_number)
{
    for (const auto& [place, property] : all_properties()) {
        const auto unit = property.value("unit", "");
        EXPECT_EQ(unit.empty(), !may_be_a_number(property)) << place << ": unit \"" << unit << '"';
        if (may_be_a_number(property) && !unit_in(place).empty()) {
            EXPECT_EQ(unit, unit_in(place)) << place;
        }
    }
}

TEST(Schemas, take_keys_of_older_bench_files_that_did_nothing)
{
    const json keys = {{"register", "sqlite:units.db"}, {"language", "de"}, {"decimal_mark", ","}, {"sounds", false}};
    for (const auto& [key, value] : keys.items()) {
        EXPECT_EQ(trouble_with("bench.json", "bench", ("/" + key).c_str(), value), "no trouble") << key;
    }
}

} // namespace
