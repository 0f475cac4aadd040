#include "acquisition/trace/visible_text.hpp"

#include <gtest/gtest.h>

namespace zeroline::trace {
namespace {

TEST(VisibleText, leaves_readable_text_of_any_language_as_it_is)
{
    EXPECT_EQ(visible("pressure \xC2\xB1 0.2 cmH\xE2\x82\x82O\n\tM\xC3\xBCnchen"),
              "pressure \xC2\xB1 0.2 cmH\xE2\x82\x82O\n\tM\xC3\xBCnchen");
    EXPECT_EQ(visible("\xF0\x9F\x94\x92"), "\xF0\x9F\x94\x92");
    EXPECT_EQ(visible(""), "");
}

TEST(VisibleText, shows_what_would_steer_a_terminal)
{
    EXPECT_EQ(visible("A\x1B[2K\rintact\a\b\x7F"), "A\\u001b[2K\\u000dintact\\u0007\\u0008\\u007f");
    EXPECT_EQ(visible("\xC2\x9B"
                      "31m"),
              "\\u009b31m")
        << "CSI as one C1 character";
    EXPECT_EQ(visible(std::string_view("\0", 1)), "\\u0000");
}

// Unicode Standard Annex 9, table 1 (from memory): U+202A to U+202E, U+2066 to U+2069, U+200E, U+200F, U+061C.
TEST(VisibleText, shows_what_would_turn_letters_round)
{
    EXPECT_EQ(visible("\xE2\x80\xAA\xE2\x80\xAE"), "\\u202a\\u202e");
    EXPECT_EQ(visible("\xE2\x81\xA6\xE2\x81\xA9\xE2\x80\x8E\xE2\x80\x8F\xD8\x9C"),
              "\\u2066\\u2069\\u200e\\u200f\\u061c");
    EXPECT_EQ(visible("\xE2\x80\xA8\xE2\x80\xA9"), "\\u2028\\u2029") << "line and paragraph separators";
}

TEST(VisibleText, shows_bytes_that_are_no_utf_8)
{
    EXPECT_EQ(visible("\x9B"
                      "31m \xFF \xC3"),
              "\\x9b31m \\xff \\xc3");
    EXPECT_EQ(visible("\xE2\x80"), "\\xe2\\x80");
    EXPECT_EQ(visible("\xC0\x9B"), "\\xc0\\x9b") << "an overlong form is no way round";
}

TEST(VisibleText, keeps_a_text_on_its_line_where_that_is_asked)
{
    EXPECT_EQ(visible_on_one_line("X\nintact\t"), "X\\u000aintact\\u0009");
}

TEST(VisibleText, knows_the_beginning_of_a_letter_whose_rest_has_not_come)
{
    EXPECT_EQ(unfinished_letter("abc"), 0u);
    EXPECT_EQ(unfinished_letter(""), 0u);
    EXPECT_EQ(unfinished_letter("a\xC2"), 1u);
    EXPECT_EQ(unfinished_letter("a\xC2\x9B"), 0u);
    EXPECT_EQ(unfinished_letter("\xE2\x80"), 2u);
    EXPECT_EQ(unfinished_letter("\xF0\x9F\x94"), 3u);
    EXPECT_EQ(unfinished_letter("\x80\x80\x80\x80"), 0u);
}

} // namespace
} // namespace zeroline::trace
