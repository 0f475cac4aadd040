#include "acquisition/trace/reading_index.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>

namespace zeroline::trace {
namespace {

constexpr double kInterval_s = 0.01;

/// Readings every 10 ms with these counts.
RawTrace counted(std::vector<std::int64_t> counts)
{
    RawTrace raw;
    raw.from_arrivals = true;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        raw.moment_s.push_back(kInterval_s * static_cast<double>(i));
        raw.pressure.push_back(0.0);
    }
    raw.count = std::move(counts);
    return raw;
}

std::vector<std::int64_t> from_to(std::int64_t first, std::int64_t last, std::int64_t step = 1)
{
    std::vector<std::int64_t> counts;
    for (auto count = first; count <= last; count += step) {
        counts.push_back(count);
    }
    return counts;
}

std::vector<std::int64_t> joined(std::vector<std::int64_t> a, const std::vector<std::int64_t>& b)
{
    a.insert(a.end(), b.begin(), b.end());
    return a;
}

using Rows = std::vector<std::size_t>;

TEST(ReadingIndex, IsTheInstrumentsCount)
{
    auto raw = counted(joined(from_to(100, 199), from_to(203, 300)));
    const auto result = index_readings(raw);
    EXPECT_TRUE(result.counted);
    EXPECT_EQ(result.step, 1);
    EXPECT_EQ(result.begins, Rows{0});
    EXPECT_EQ(result.index[99], 199);
    EXPECT_EQ(result.index[100], 203);
}

TEST(ReadingIndex, GoesOnWhereACountWraps)
{
    for (const std::int64_t size : {256, 1000, 65'536}) {
        auto raw = counted(joined(from_to(size - 100, size - 1), from_to(0, 99)));
        const auto result = index_readings(raw);
        EXPECT_EQ(result.begins, Rows{0}) << size;
        EXPECT_EQ(result.index[100], size) << size;
        EXPECT_EQ(result.index[199], size + 99) << size;
    }
}

TEST(ReadingIndex, BeginsASeriesWhereTheInstrumentRestarts)
{
    auto raw = counted(joined(from_to(5000, 5099), from_to(0, 99)));
    for (std::size_t i = 100; i < 200; ++i) {
        raw.moment_s[i] += 4.0;
    }
    const auto result = index_readings(raw);
    EXPECT_EQ(result.begins, (Rows{0, 100}));
    EXPECT_EQ(result.index[100], 0);
}

TEST(ReadingIndex, SeesACountThatMovesInLargerSteps)
{
    auto raw = counted(joined(from_to(0, 990, 10), from_to(1030, 2000, 10)));
    const auto result = index_readings(raw);
    EXPECT_EQ(result.step, 10);
    EXPECT_EQ(result.begins, Rows{0});
}

TEST(ReadingIndex, PassesOverADamagedCount)
{
    auto counts = from_to(0, 199);
    counts[50] = 9'999'950;
    counts[80] = -1;
    counts[120] = 2;
    auto raw = counted(counts);
    const auto result = index_readings(raw);
    EXPECT_EQ(result.begins, Rows{0});
    EXPECT_EQ(result.index, from_to(0, 199));
}

/// A line that loses its end within its count is joined with the next one, one line in a hundred.
TEST(ReadingIndex, PassesOverCountsThatAreDamagedAgainAndAgain)
{
    std::mt19937 random(14);
    std::vector<std::int64_t> counts;
    std::vector<double> arrival_s;
    for (std::int64_t count = 600; count < 30'600; ++count) {
        const auto digits = std::to_string(count);
        const bool is_torn = random() % 100 == 0;
        const auto left = is_torn ? digits.substr(0, 1 + random() % digits.size()) : std::string();
        count += is_torn ? 1 : 0;
        counts.push_back(std::stoll(left + std::to_string(count)));
        arrival_s.push_back(kInterval_s * static_cast<double>(count - 600));
    }
    auto raw = counted(counts);
    raw.moment_s = arrival_s;
    const auto result = index_readings(raw);
    EXPECT_EQ(result.begins, Rows{0});
    for (std::size_t row = 0; row < counts.size(); ++row) {
        const double index_s = kInterval_s * static_cast<double>(result.index[row] - 600);
        ASSERT_NEAR(index_s, arrival_s[row], 2.5 * kInterval_s) << "row " << row << ", count " << counts[row];
    }
}

TEST(ReadingIndex, DropsAReadingThatWasSentTwice)
{
    auto raw = counted(joined(from_to(0, 99), from_to(99, 198)));
    const auto result = index_readings(raw);
    EXPECT_EQ(result.index[99], 99);
    EXPECT_EQ(result.index[100], kNoReading);
    EXPECT_EQ(result.index[101], 100);
}

TEST(ReadingIndex, DoesNotBelieveACountThatCountsNothing)
{
    auto raw = counted(std::vector<std::int64_t>(200, 7));
    const auto result = index_readings(raw);
    EXPECT_FALSE(result.counted);
    EXPECT_EQ(result.index, from_to(0, 199));
}

TEST(ReadingIndex, IsTheOrderOfArrivalWithoutACount)
{
    auto raw = counted({});
    for (std::size_t i = 0; i < 100; ++i) {
        raw.moment_s.push_back(kInterval_s * static_cast<double>(i));
        raw.pressure.push_back(i == 50 ? NAN : 0.0);
    }
    raw.notes.push_back({50, NoteKind::overrange, "overrange"});
    const auto result = index_readings(raw);
    EXPECT_FALSE(result.counted);
    EXPECT_EQ(result.index, from_to(0, 99)) << "a reading without value is a reading";
}

TEST(ReadingIndex, LeavesEventsOut)
{
    auto raw = counted({});
    for (std::size_t i = 0; i < 100; ++i) {
        raw.moment_s.push_back(kInterval_s * static_cast<double>(i));
        raw.pressure.push_back(i == 50 ? NAN : 0.0);
    }
    raw.notes.push_back({50, NoteKind::lost, "lost"});
    const auto result = index_readings(raw);
    EXPECT_EQ(result.index[50], kNoReading);
    EXPECT_EQ(result.index[51], 50);
}

RawTrace uncounted_with_gap(double gap_s, bool caught_up)
{
    RawTrace raw;
    raw.from_arrivals = true;
    for (std::size_t i = 0; i < 2000; ++i) {
        const double sampled_s = kInterval_s * static_cast<double>(i) + (i >= 1000 && !caught_up ? gap_s : 0.0);
        const bool held_up = caught_up && sampled_s >= 10.0 && sampled_s < 10.0 + gap_s;
        raw.moment_s.push_back(held_up ? 10.0 + gap_s : sampled_s);
        raw.pressure.push_back(0.0);
    }
    return raw;
}

TEST(ReadingIndex, BeginsASeriesBehindAGapWithoutACount)
{
    auto raw = uncounted_with_gap(2.0, false);
    EXPECT_EQ(index_readings(raw).begins, (Rows{0, 1000}));
}

TEST(ReadingIndex, TellsAHoldUpFromAGap)
{
    auto raw = uncounted_with_gap(2.0, true);
    EXPECT_EQ(index_readings(raw).begins, Rows{0});
}

TEST(ReadingIndex, TakesTheInstrumentsClockWhereThereIsNoCount)
{
    auto raw = counted({});
    for (std::size_t i = 0; i < 300; ++i) {
        const std::size_t sampled = i < 150 ? i : i + 3;
        raw.moment_s.push_back(kInterval_s * static_cast<double>(sampled));
        raw.pressure.push_back(0.0);
        // To the millisecond, as an instrument would write it, of an interval that is none.
        raw.instrument_time_s.push_back(std::round(10.0 * static_cast<double>(sampled) / 3.0) / 1000.0);
    }
    const auto result = index_readings(raw);
    EXPECT_TRUE(result.counted);
    EXPECT_EQ(result.index[149], 149);
    EXPECT_EQ(result.index[150], 153);
    EXPECT_EQ(result.index[299], 302);
}

TEST(ReadingIndex, KeepsAnUnevenInstrumentClockAsItIs)
{
    auto raw = counted({});
    double clock_s = 0.0;
    for (std::size_t i = 0; i < 300; ++i) {
        clock_s += i % 3 == 0 ? 0.010 : (i % 3 == 1 ? 0.0145 : 0.0172);
        raw.moment_s.push_back(clock_s);
        raw.pressure.push_back(0.0);
        raw.instrument_time_s.push_back(clock_s);
    }
    const auto result = index_readings(raw);
    EXPECT_FALSE(result.counted);
    EXPECT_EQ(result.index[3] - result.index[0], 41'700);
    EXPECT_EQ(result.index[1] - result.index[0], 14'500);
}

/// 60 s at 250 Hz on a busy computer: for 0.8 s nothing is read, then all that waited comes at once, but for some
/// seconds everything stays late; only after another hold-up it comes at its time again.
RawTrace held_up(bool with_counts)
{
    auto raw = counted({});
    for (std::int64_t i = 0; i < 15'000; ++i) {
        double arrival_s = 0.004 * static_cast<double>(i) * (1.0 + 60e-6);
        if (arrival_s > 20.2 && arrival_s < 23.9) {
            arrival_s = std::max(arrival_s + 0.12, 20.97);
        } else if (arrival_s > 23.9 && arrival_s < 24.5) {
            arrival_s = 24.5;
        }
        raw.moment_s.push_back(arrival_s);
        raw.pressure.push_back(0.0);
        if (with_counts) {
            raw.count.push_back(i);
        }
    }
    return raw;
}

TEST(ReadingIndex, DoesNotTakeReadingsThatWereHeldUpForAGap)
{
    for (const bool with_counts : {true, false}) {
        auto raw = held_up(with_counts);
        EXPECT_EQ(index_readings(raw).begins, Rows{0}) << with_counts;
    }
}

/// 70 s at 250 Hz on a computer that is busy all the time: it looks at the port now and then only, and reads what
/// waited there within a moment. `lost_s` of readings are missing before the 10,000th.
RawTrace read_now_and_then(bool with_counts, double lost_s)
{
    auto raw = counted({});
    std::mt19937 dice(7);
    std::exponential_distribution<double> busy_s(3.0); // a third of a second at a time
    double looks_s = 0.0;
    for (std::int64_t i = 0; i < 17'500; ++i) {
        const double sent_s = 0.004 * static_cast<double>(i) + (i < 10'000 ? 0.0 : lost_s);
        while (looks_s < sent_s) {
            looks_s += busy_s(dice);
        }
        raw.moment_s.push_back(std::max(looks_s, raw.moment_s.empty() ? 0.0 : raw.moment_s.back() + 2e-5));
        raw.pressure.push_back(0.0);
        if (with_counts) {
            raw.count.push_back(i);
        }
    }
    return raw;
}

TEST(ReadingIndex, DoesNotTakeAComputerThatIsBusyAllTheTimeForGaps)
{
    for (const bool with_counts : {true, false}) {
        auto raw = read_now_and_then(with_counts, 0.0);
        EXPECT_EQ(index_readings(raw).begins, Rows{0}) << with_counts;
    }
}

TEST(ReadingIndex, FindsAGapOnAComputerThatIsBusyAllTheTime)
{
    auto raw = read_now_and_then(false, 3.0);
    auto begins = index_readings(raw).begins;
    begins.erase(begins.begin());
    std::erase_if(begins, [](std::size_t row) { return row > 17'250; }); // the last second: nothing after it tells
    ASSERT_FALSE(begins.empty());
    for (const auto row : begins) { // a long hold-up beside it may be taken for a part of it
        EXPECT_NEAR(static_cast<double>(row), 10'000.0, 1000.0);
    }
}

TEST(ReadingIndex, FindsAGapAmongReadingsThatWereHeldUp)
{
    auto raw = held_up(false);
    const std::size_t lost_from = 10'000;
    for (std::size_t i = lost_from; i < raw.moment_s.size(); ++i) {
        raw.moment_s[i] += 0.4;
    }
    EXPECT_EQ(index_readings(raw).begins, (Rows{0, lost_from}));
}

} // namespace
} // namespace zeroline::trace
