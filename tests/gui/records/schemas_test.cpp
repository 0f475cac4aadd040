#include "gui/records/schemas.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/json_file.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

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
              "/language/kind: \"morse\"; expected one of numeric-lines, scpi-query, modbus-rtu");
    EXPECT_EQ(trouble_with("instrument.json", "instrument", "/language/field", 0),
              "/language/field: 0; expected a whole number from 1 to 64");
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

} // namespace
