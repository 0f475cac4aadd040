#include "acquisition/trace/csv_cells.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "tests/temporary_folder.hpp"

#include <gtest/gtest.h>

#include <clocale>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <locale>

namespace zeroline::trace {
namespace {

struct Written {
    std::string text;
    double value;
};

const Written kNumbers[] = {
    {"0", 0.0},
    {"-0", -0.0},
    {"40", 40.0},
    {"-40.25", -40.25},
    {"+40.25", 40.25},
    {".5", 0.5},
    {"5.", 5.0},
    {"-.5", -0.5},
    {"007", 7.0},
    {"1e3", 1000.0},
    {"1E3", 1000.0},
    {"1e+3", 1000.0},
    {"1e-3", 0.001},
    {"-1.25e0", -1.25},
    {"  1.5", 1.5},
    {"1.5\t", 1.5},
    {"0.1", 0.1},
    {"9007199254740993", 9007199254740992.0}, // halfway, to even
    {"1.7976931348623157e308", 1.7976931348623157e308},
    {"4.9406564584124654e-324", 4.9406564584124654e-324},
    {"2.2250738585072011e-308", 2.2250738585072011e-308}, // the largest subnormal's neighbourhood
    {"0.1000000000000000055511151231257827021181583404541015625", 0.1},
};

const char* const kNoNumbers[] = {"",
                                  " ",
                                  "-",
                                  "+",
                                  ".",
                                  "e5",
                                  "1e",
                                  "1e+",
                                  "1.2.3",
                                  "1,5",
                                  "1 000",
                                  "1'000",
                                  "--1",
                                  "+-1",
                                  "-+1",
                                  "++1",
                                  "nan",
                                  "NaN",
                                  "-nan",
                                  "inf",
                                  "-inf",
                                  "INF",
                                  "infinity",
                                  "1e999",
                                  "-1e999",
                                  "0x10",
                                  "1.5f",
                                  "1.5x",
                                  "nan(1)",
                                  "1e5.5",
                                  "\xEF\xBB\xBF 1",
                                  "- 1"};

TEST(NumberInACell, IsReadAsWritten)
{
    for (const auto& number : kNumbers) {
        const auto value = number_in(number.text, '.');
        ASSERT_TRUE(value) << number.text;
        EXPECT_EQ(*value, number.value) << number.text;
        EXPECT_EQ(std::signbit(*value), std::signbit(number.value)) << number.text;
    }
}

TEST(NumberInACell, ThatIsNoneIsRefused)
{
    for (const auto* text : kNoNumbers) {
        EXPECT_FALSE(number_in(text, '.')) << text;
    }
    EXPECT_FALSE(number_in(std::string_view("1\0002", 3), '.'));
}

TEST(NumberInACell, MayHaveADecimalComma)
{
    EXPECT_EQ(number_in("-40,25", ','), -40.25);
    EXPECT_EQ(number_in("1,25e-1", ','), 0.125);
    EXPECT_EQ(number_in("17", ','), 17.0);
    EXPECT_FALSE(number_in("1.234,5", ','));
    EXPECT_FALSE(number_in("1,2,3", ','));
    EXPECT_FALSE(number_in("40.25", ','));
    EXPECT_FALSE(number_in(std::string(500, '1'), ','));
}

TEST(CountInACell, IsAWholeNumber)
{
    EXPECT_EQ(count_in("0"), 0);
    EXPECT_EQ(count_in(" 4294967296 "), 4294967296);
    EXPECT_EQ(count_in("9007199254740992"), kLargestCount);
    for (const auto* text : {"", "-1", "1.0", "1e3", "9007199254740993", "99999999999999999999", "x", "+1"}) {
        EXPECT_FALSE(count_in(text)) << text;
    }
}

TEST(ShownText, IsOneBoundedLineOfUtf8)
{
    EXPECT_EQ(shown("abc"), "\"abc\"");
    EXPECT_EQ(shown("a\nb\x1b[31m"), "\"a?b?[31m\"");
    EXPECT_EQ(shown("\xFCnit"), "\"?nit\"");
    EXPECT_EQ(shown("\xC3\xBCnit"), "\"\xC3\xBCnit\"");
    // Cut between characters, not inside one.
    const auto cut = shown(std::string(39, 'a') + "\xC3\xBC and more");
    EXPECT_EQ(cut, "\"" + std::string(39, 'a') + "...\"");
}

TEST(Utf8, IsToldFromWhatIsNot)
{
    EXPECT_TRUE(is_utf8("plain, \xC3\xA4, \xE2\x82\xAC, \xF0\x9F\x99\x82"));
    for (const auto* text : {"\xFC", "\xC3", "\xC0\x80", "\xE0\x80\x80", "\xED\xA0\x80", "\xF5\x80\x80\x80", "\x80"}) {
        EXPECT_FALSE(is_utf8(text));
    }
}

struct DecimalComma : std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
};

/// Both locales of the program, C's and C++'s, with a decimal comma while it lives.
class CommaLocale {
public:
    CommaLocale() : before_(std::locale::global(std::locale(std::locale::classic(), new DecimalComma)))
    {
        const TemporaryFolder folder;
        const auto command = "localedef -i de_DE -f UTF-8 " + (folder / "de_DE.UTF-8").string() + " 2>/dev/null";
        if (std::system(command.c_str()) == 0) {
            setenv("LOCPATH", folder.path().c_str(), 1);
        }
        c_too_ = std::setlocale(LC_ALL, "de_DE.UTF-8") != nullptr;
        unsetenv("LOCPATH");
    }
    ~CommaLocale()
    {
        std::locale::global(before_);
        std::setlocale(LC_ALL, "C");
    }
    CommaLocale(const CommaLocale&) = delete;
    CommaLocale& operator=(const CommaLocale&) = delete;
    [[nodiscard]] bool c_too() const { return c_too_; }

private:
    std::locale before_;
    bool c_too_ = false;
};

TEST(CommaLocaleOfTheSystem, ChangesNothing)
{
    const CommaLocale comma;
    ASSERT_TRUE(comma.c_too()) << "no German locale: install the package locales";
    ASSERT_EQ(std::strtod("1,5", nullptr), 1.5) << "the locale does not work, so this test would prove nothing";
    for (const auto& number : kNumbers) {
        EXPECT_EQ(number_in(number.text, '.'), number.value) << number.text;
    }
    const std::string text = "arrival_s,pressure_cmH2O,count,note\n1234.5,-40.25,1234567,\n";
    const auto trace = parse_trace_csv(text);
    EXPECT_EQ(trace.moment_s.at(0), 1234.5);
    EXPECT_EQ(trace.pressure.at(0), -40.25);
    EXPECT_EQ(trace.count.at(0), 1234567);
    EXPECT_EQ(to_csv(trace), text);
}

} // namespace
} // namespace zeroline::trace
