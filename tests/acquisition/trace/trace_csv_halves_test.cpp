// Large files are read in two halves at once: nothing about the result may tell.

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "acquisition/trace/trace_csv_reader.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace zeroline::trace {
namespace {

struct Read {
    std::vector<double> moment_s, pressure;
    std::string refusal;
    bool operator==(const Read&) const = default;
};

template <class Reading> Read read_by(const Reading& reading)
{
    try {
        const RawTrace trace = reading();
        return {trace.moment_s, trace.pressure, {}};
    } catch (const InputError& error) {
        return {{}, {}, error.what()};
    }
}

Read in_large_blocks(const std::string& text)
{
    return read_by([&] { return parse_trace_csv(text); });
}

// Too small for halves.
Read in_small_blocks(const std::string& text)
{
    return read_by([&] {
        TraceCsvReader reader(text.size());
        std::size_t begin = 0;
        for (; begin + 4096 < text.size();) {
            begin += reader.take(std::string_view(text).substr(begin, 4096));
        }
        begin += reader.take(std::string_view(text).substr(begin));
        return reader.finish(std::string_view(text).substr(begin));
    });
}

constexpr int kRows = 130'000;
constexpr int kBytesARow = 16;

// Rows of equal length, so that the middle of a block is in a known row; one of them is something else.
std::string text_with(int strange_row, const std::string& strange)
{
    std::string text = "time_s,pressure_cmH2O\n";
    for (int i = 0; i < kRows; ++i) {
        text += i == strange_row ? strange : std::to_string(1'000'000 + i) + "," + std::to_string(10'000 + i % 9'999);
        text += i == strange_row ? "" : ".5\n";
    }
    return text;
}

TEST(TraceCsvHalves, AreReadLikeRows)
{
    const auto text = text_with(-1, "");
    const auto read = in_large_blocks(text);
    ASSERT_EQ(text.size(), 22U + kBytesARow * kRows);
    EXPECT_EQ(read.moment_s.size(), static_cast<std::size_t>(kRows));
    EXPECT_EQ(read.moment_s.back(), 1'000'000.0 + kRows - 1);
    EXPECT_EQ(read, in_small_blocks(text));
}

TEST(TraceCsvHalves, RowsThatNeedACloserLookAreReadAlike)
{
    constexpr int kMiddle = (1 << 19) / kBytesARow;
    for (const int row : {0, 1, 1000, kMiddle - 1, kMiddle, kMiddle + 1, kMiddle + 30'000, 2 * kMiddle, kRows - 1}) {
        for (const std::string strange : {"# a remark\n", "\n", "999999,1\n", "1000000,\n", "1000000,1,2\n", "x,1\n",
                                          " 1e9 , 1.5\n", "\"1\",2\n", "1000000,1e10\n"}) {
            const auto text = text_with(row, strange);
            EXPECT_EQ(in_large_blocks(text), in_small_blocks(text)) << row << ": " << strange;
        }
    }
}

TEST(TraceCsvHalves, ATimeThatStandsStillIsNamedWithItsLineWhereverItIs)
{
    constexpr int kMiddle = (1 << 19) / kBytesARow;
    for (int row = kMiddle - 3; row < kMiddle + 3; ++row) {
        const auto before = std::to_string(1'000'000 + row - 1);
        EXPECT_EQ(in_large_blocks(text_with(row, before + ",1\n")).refusal,
                  "line " + std::to_string(row + 2) + ": time " + before + " s after " + before +
                      " s; expected times that strictly increase");
    }
}

} // namespace
} // namespace zeroline::trace
