#include "gui/console/wrapped_text.hpp"

#include <gtest/gtest.h>

namespace {

using zeroline::console::letters_in;
using zeroline::console::wrapped;

TEST(WrappedText, breaks_at_blanks_and_never_in_a_word)
{
    EXPECT_EQ(wrapped("one two three", 9), "one two\nthree");
    EXPECT_EQ(wrapped("one two three", 80), "one two three");
    EXPECT_EQ(wrapped("a reallylongword b", 8), "a\nreallylongword\nb");
    EXPECT_EQ(wrapped("", 20), "");
}

TEST(WrappedText, goes_on_under_where_the_text_began)
{
    EXPECT_EQ(wrapped("  - plug out of the hose end", 16), "  - plug out of\n    the hose end");
}

TEST(WrappedText, counts_letters_and_not_bytes)
{
    EXPECT_EQ(letters_in("\u00e4\u00f6\u00fc"), 3u);
    EXPECT_EQ(wrapped("\u00e4\u00f6\u00fc \u00e4\u00f6", 6), "\u00e4\u00f6\u00fc \u00e4\u00f6");
}

} // namespace
