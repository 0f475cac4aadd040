#include "acquisition/trace/plain_decimal.hpp"

#include <gtest/gtest.h>

#include <bit>
#include <random>
#include <string>

namespace zeroline::trace {
namespace {

/// The same bits, the same end and the same refusal as std::from_chars (C++17, [charconv.from.chars]).
void expect_as_from_chars(const std::string& text)
{
    double ours = -77.0, theirs = -77.0;
    const char* begin = text.data();
    const auto own = read_decimal(begin, begin + text.size(), ours);
    const auto known = std::from_chars(begin, begin + text.size(), theirs);
    EXPECT_EQ(own.ptr - begin, known.ptr - begin) << text;
    EXPECT_EQ(own.ec, known.ec) << text;
    EXPECT_EQ(std::bit_cast<std::uint64_t>(ours), std::bit_cast<std::uint64_t>(theirs)) << text;
}

TEST(PlainDecimal, ReadsWhatFromCharsReads)
{
    for (const char* text : {"",
                             "-",
                             ".",
                             "-.",
                             "1",
                             "1.",
                             ".5",
                             "-.5",
                             "0.0",
                             "-0.0",
                             "-0.00",
                             "1.5",
                             "-39.98,",
                             "1234.567,8",
                             "+1.5",
                             "--1.5",
                             "1.5e3",
                             "1.5E-3",
                             "1.5e",
                             "1.5.5",
                             "1e5",
                             "nan",
                             "-inf",
                             "0x1p3",
                             " 1.5",
                             "1,5",
                             "000.1\n",
                             "123456789012345",
                             "12345678901234.5",
                             "123456789012345.6",
                             "1234567890.123456",
                             "0.000000000000001",
                             "0.0000000000000001",
                             "99999999999999999999.5",
                             "0.1234567890123456789",
                             "9007199254740993.0"})
        expect_as_from_chars(text);
}

TEST(PlainDecimal, RoundsAsFromCharsDoes)
{
    std::mt19937_64 random(20261130);
    for (int k = 0; k < 200'000; ++k) {
        std::string text = random() % 2 == 0 ? "-" : "";
        for (std::size_t digits = 1 + random() % 9; digits > 0; --digits)
            text += static_cast<char>('0' + random() % 10);
        text += '.';
        for (std::size_t digits = random() % 9; digits > 0; --digits)
            text += static_cast<char>('0' + random() % 10);
        expect_as_from_chars(text + (random() % 4 == 0 ? "" : random() % 2 == 0 ? "," : "\r\n"));
    }
}

} // namespace
} // namespace zeroline::trace
