#include "gui/records/json_file.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <fstream>

namespace {

using namespace zeroline;
using testing::HasSubstr;
using testing::StartsWith;

std::string trouble_with(std::string_view text)
{
    try {
        static_cast<void>(records::parse_json(text));
    } catch (const trace::InputError& error) {
        return error.what();
    }
    return "no trouble";
}

TEST(JsonFile, reads_what_rfc_8259_allows)
{
    EXPECT_EQ(records::parse_json(R"({"a": [1, 2.5, "x", null, true]})")["a"][1], 2.5);
    EXPECT_EQ(records::parse_json("\xEF\xBB\xBF{}"), nlohmann::json::object());
}

TEST(JsonFile, names_line_and_column_of_a_syntax_error)
{
    EXPECT_THAT(trouble_with("{\n  \"a\": 1,\n]"), StartsWith("line 2, column 9: a comma behind"));
    EXPECT_THAT(trouble_with("{\n  \"a\": 1\n]"), StartsWith("line 3, column 1: "));
    EXPECT_THAT(trouble_with("{\n  \"a\" 1\n}"), StartsWith("line 2, column 7: "));
    EXPECT_THAT(trouble_with(""), StartsWith("line 1: there is nothing in it"));
    EXPECT_THAT(trouble_with("{} {}"), StartsWith("line 1, column 4: "));
}

TEST(JsonFile, a_syntax_error_is_one_line_without_the_parsers_own_prefix)
{
    const auto text = trouble_with("{\n  \"a\": 1,\n}");
    EXPECT_THAT(text, Not(HasSubstr("exception")));
    EXPECT_THAT(text, Not(HasSubstr("\n")));
    EXPECT_THAT(text, HasSubstr("expected"));
}

TEST(JsonFile, refuses_a_key_that_stands_twice_and_says_where)
{
    EXPECT_EQ(trouble_with("{\"a\": 1,\n \"b\": {\"c\": 1, \"c\": 2}}"),
              "line 2, column 18: the key \"c\" stands twice; expected each key once");
    EXPECT_EQ(trouble_with(R"({"a": {"c": 1}, "b": {"c": 2}})"), "no trouble");
    EXPECT_EQ(trouble_with(R"([{"c": 1}, {"c": 2}])"), "no trouble");
}

TEST(JsonFile, refuses_a_key_that_stands_twice_also_when_it_is_written_with_an_escape)
{
    EXPECT_THAT(trouble_with(R"({"a": 1, "\u0061": 2})"), HasSubstr("stands twice"));
}

TEST(JsonFile, says_how_to_mend_what_editors_and_habits_put_into_it)
{
    EXPECT_EQ(trouble_with("{\n \"duration\": 1,5}"),
              "line 2, column 16: a decimal comma in 1,5; expected a decimal point: 1.5");
    EXPECT_EQ(trouble_with(std::string_view("\xff\xfe{\0}\0", 6)),
              "line 1: the file is saved as UTF-16; expected UTF-8; in the editor, save it as UTF-8");
    EXPECT_EQ(trouble_with(std::string_view("{\0}\0", 4)),
              "line 1: the file is saved as UTF-16; expected UTF-8; in the editor, save it as UTF-8");
    EXPECT_THAT(trouble_with("{\"a\": \"Ger\xe4t\"}"), HasSubstr("a letter that is not saved as UTF-8"));
    EXPECT_THAT(trouble_with("{\u201ca\u201d: 1}"), HasSubstr("a typographic quotation mark"));
}

TEST(JsonFile, names_commas_remarks_and_quotation_marks_as_a_person_does)
{
    EXPECT_EQ(trouble_with("{\"a\": 1\n \"b\": 2}"),
              "line 1, column 7: no comma behind this; expected a comma between one and the next");
    EXPECT_EQ(trouble_with("[{\"a\": 1}\n {\"b\": 2}]"),
              "line 1, column 9: no comma behind this; expected a comma between one and the next");
    EXPECT_EQ(trouble_with("{\"a\": \"b\" \"c\": 1}"),
              "line 1, column 9: no comma behind this; expected a comma between one and the next");
    EXPECT_EQ(trouble_with("{\"a\": [1,\n 2,\n]}"),
              "line 2, column 3: a comma behind the last one; expected none before a closing bracket");
    EXPECT_EQ(trouble_with("{\"a\": 1,\n// for the lamp\n \"b\": 2}"),
              "line 2, column 1: a remark; expected none: JSON knows no remarks");
    EXPECT_EQ(trouble_with("{'a': 1}"), "line 1, column 2: a single quotation mark; expected the double one: \"");
    EXPECT_THAT(trouble_with("{\"a\" 1}"), HasSubstr("expected ':'")) << "a colon is missing there, no comma";
}

TEST(JsonFile, takes_no_other_mistake_for_a_decimal_comma)
{
    for (const auto* text : {"[1,2 3]", "[1,2,]", "[1,2}", "{\"a\": [1,2,3}", "{\"a\": 1,}"}) {
        EXPECT_THAT(trouble_with(text), Not(HasSubstr("comma in"))) << text;
    }
}

TEST(JsonFile, refuses_brackets_without_end)
{
    EXPECT_THAT(trouble_with(std::string(100000, '[')), HasSubstr("more than 100 levels"));
}

TEST(JsonFile, refuses_the_same_where_the_order_of_keys_is_kept)
{
    const auto refusal = [](std::string_view text) {
        try {
            static_cast<void>(records::parse_ordered_json(text));
        } catch (const trace::InputError& error) {
            return std::string(error.what());
        }
        return std::string("no trouble");
    };
    EXPECT_THAT(refusal(std::string(100000, '[') + std::string(100000, ']')), HasSubstr("more than 100 levels"));
    EXPECT_THAT(refusal(R"({"a": 1, "a": 2})"), HasSubstr("stands twice"));
    EXPECT_EQ(records::parse_ordered_json(R"({"b": 1, "a": 2})").begin().key(), "b");
}

TEST(JsonFile, refuses_more_than_any_file_of_ours_holds)
{
    const std::string large(records::kLargestJsonFile + 1, ' ');
    EXPECT_THAT(trouble_with(large), HasSubstr("bytes of JSON"));
}

TEST(JsonFile, refuses_a_number_that_no_double_holds_and_text_that_is_no_utf8)
{
    EXPECT_THAT(trouble_with("{\"a\": 1e999}"), HasSubstr("line 1"));
    EXPECT_THAT(trouble_with("{\"a\": \"\xff\"}"), HasSubstr("line 1"));
}

TEST(JsonFile, names_the_file_that_cannot_be_read)
{
    try {
        static_cast<void>(records::load_json("/nowhere/order.json"));
        FAIL();
    } catch (const trace::InputError& error) {
        EXPECT_THAT(error.what(), StartsWith("/nowhere/order.json: No such file or directory"));
    }
    EXPECT_THROW(static_cast<void>(records::load_json("/")), trace::InputError);
}

TEST(JsonFile, puts_the_file_in_front_of_what_is_wrong_inside)
{
    const std::string file = testing::TempDir() + "json_file_test.json";
    std::ofstream(file) << "{\n\"a\" }";
    try {
        static_cast<void>(records::load_json(file));
        FAIL();
    } catch (const trace::InputError& error) {
        EXPECT_THAT(error.what(), StartsWith(file + ": line 2, column 5: "));
    }
}

TEST(JsonFile, refuses_a_file_larger_than_it_may_be)
{
    const std::string file = testing::TempDir() + "json_file_test_large.json";
    std::ofstream(file) << std::string(1000, ' ');
    EXPECT_EQ(records::read_file(file, 1000).size(), 1000u);
    EXPECT_THROW(static_cast<void>(records::read_file(file, 999)), trace::InputError);
}

} // namespace
