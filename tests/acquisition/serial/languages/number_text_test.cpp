#include "acquisition/serial/languages/number_text.hpp"

#include <gtest/gtest.h>

#include <clocale>
#include <cmath>
#include <string>

namespace zeroline::serial::test {
namespace {

double value_of(std::string_view text, char decimal = '.')
{
    const NumberText number = read_number(text, decimal);
    EXPECT_EQ(number.kind, NumberKind::finite) << text;
    return number.value;
}

// IEEE 488.2, numeric response data NR1, NR2, NR3 (from memory).
TEST(NumberText, reads_the_published_forms_nr1_nr2_and_nr3)
{
    EXPECT_EQ(value_of("38"), 38.0);
    EXPECT_EQ(value_of("-206"), -206.0);
    EXPECT_EQ(value_of("+102"), 102.0);
    EXPECT_EQ(value_of("23.85"), 23.85);
    EXPECT_EQ(value_of("-12.6"), -12.6);
    EXPECT_EQ(value_of("+18.0"), 18.0);
    EXPECT_EQ(value_of("1.23E+5"), 123000.0);
    EXPECT_EQ(value_of("-12.3E+6"), -12300000.0);
    EXPECT_EQ(value_of("+3.0E-01"), 0.3);
}

// SCPI-99: 9.9E37 is infinity, 9.91E37 not-a-number; the spellings are those of published drivers.
TEST(NumberText, knows_infinity_and_not_a_number_of_scpi_in_any_spelling)
{
    for (const char* text : {"9.91E37", "+9.91E+37", "9.91000E+37", "9.91e37", "99.1E36", "-9.91E37"}) {
        EXPECT_EQ(read_number(text).kind, NumberKind::not_a_number) << text;
    }
    for (const char* text : {"9.9E37", "+9.9E+37", "-9.9E+37", "9.90000E+37", "1E38", "-1e300"}) {
        EXPECT_EQ(read_number(text).kind, NumberKind::overrange) << text;
    }
    EXPECT_EQ(value_of("9.8E37"), 9.8e37);
}

TEST(NumberText, takes_words_for_what_they_say_and_never_for_a_number)
{
    for (const char* text : {"nan", "NaN", "NAN", "+nan", "-NaN"}) {
        EXPECT_EQ(read_number(text).kind, NumberKind::not_a_number) << text;
    }
    for (const char* text : {"inf", "INF", "-Inf", "Infinity", "+infinity"}) {
        EXPECT_EQ(read_number(text).kind, NumberKind::overrange) << text;
    }
}

TEST(NumberText, takes_signs_blanks_and_bare_points_as_instruments_write_them)
{
    EXPECT_EQ(value_of("  1.5\t"), 1.5);
    EXPECT_EQ(value_of("-  12.3"), -12.3);
    EXPECT_EQ(value_of("+ 0012.30"), 12.3);
    EXPECT_EQ(value_of(".5"), 0.5);
    EXPECT_EQ(value_of("-.5"), -0.5);
    EXPECT_EQ(value_of("5."), 5.0);
    EXPECT_TRUE(std::signbit(value_of("-0")));
}

TEST(NumberText, refuses_everything_that_is_no_number_from_end_to_end)
{
    for (const char* text : {"",      " ",      "-",     "+",      ".",          "e5",   "1e",   "1e+",    "--1",
                             "+-1",   "1 2",    "1.2.3", "1,5",    "0x10",       "1_0",  "12a",  "a12",    "nano",
                             "infin", "nan(1)", "1e400", "1e-400", "12.3 cmH2O", "\xff", "- -1", "1.5\x01"}) {
        EXPECT_EQ(read_number(text).kind, NumberKind::none) << text;
    }
    EXPECT_EQ(read_number(std::string(65, '1')).kind, NumberKind::none);
}

TEST(NumberText, reads_a_decimal_comma_where_the_instrument_writes_one_and_then_no_point)
{
    EXPECT_EQ(value_of("-12,5", ','), -12.5);
    EXPECT_EQ(value_of("1,25E+1", ','), 12.5);
    EXPECT_EQ(value_of(",5", ','), 0.5);
    EXPECT_EQ(read_number("12.5", ',').kind, NumberKind::none);
    EXPECT_EQ(read_number("1,2,3", ',').kind, NumberKind::none);
}

TEST(NumberText, does_not_heed_the_locale)
{
    const std::string before = std::setlocale(LC_ALL, nullptr);
    std::setlocale(LC_ALL, "de_DE.UTF-8"); // where it is not installed, nothing changes
    EXPECT_EQ(value_of("1.5"), 1.5);
    std::setlocale(LC_ALL, before.c_str());
}

TEST(NumberText, reads_counters_as_whole_numbers_only)
{
    EXPECT_EQ(read_count("0"), 0);
    EXPECT_EQ(read_count(" 00123 "), 123);
    EXPECT_EQ(read_count("9223372036854775807"), 9223372036854775807LL);
    for (const char* text : {"", "-1", "+1", "1.0", "1e3", "9223372036854775808", "12x"}) {
        EXPECT_FALSE(read_count(text)) << text;
    }
}

} // namespace
} // namespace zeroline::serial::test
