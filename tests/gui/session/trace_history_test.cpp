#include "gui/session/trace_history.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace zeroline::session {
namespace {

using testing::IsEmpty;
using testing::SizeIs;

// Times that a float holds exactly, so that they can be compared.
constexpr double kRate_hz = 1024.0;

std::vector<LiveSample> sine(int samples, double rate_hz = kRate_hz)
{
    std::vector<LiveSample> made;
    for (int i = 0; i < samples; ++i)
        made.push_back({i / rate_hz, static_cast<float>(40.0 * std::sin(2.0 * std::numbers::pi * i / rate_hz))});
    return made;
}

TraceHistory history_of(const std::vector<LiveSample>& samples, double nominal_hz = 0.0)
{
    TraceHistory history(nominal_hz);
    history.append(samples);
    return history;
}

bool is_in_time_order(const std::vector<LiveSample>& samples)
{
    return std::is_sorted(samples.begin(), samples.end(),
                          [](const auto& a, const auto& b) { return a.time_s <= b.time_s; });
}

bool contains(const std::vector<LiveSample>& samples, const LiveSample& wanted)
{
    return std::any_of(samples.begin(), samples.end(), [&](const auto& sample) {
        return sample.time_s == wanted.time_s && sample.pressure_cmH2O == wanted.pressure_cmH2O;
    });
}

/// The plain definition, sample by sample.
std::vector<LiveSample> plainly_thinned(const std::vector<LiveSample>& samples, double from_s, double to_s, int columns)
{
    std::vector<LiveSample> kept;
    const auto add = [&](const LiveSample& sample) {
        if (kept.empty() || kept.back().time_s < sample.time_s)
            kept.push_back(sample);
    };
    const double width_s = (to_s - from_s) / columns;
    std::vector<std::vector<LiveSample>> in_column(static_cast<std::size_t>(columns));
    std::vector<LiveSample> inside;
    for (const auto& sample : samples) {
        if (sample.time_s < from_s || sample.time_s > to_s)
            continue;
        inside.push_back(sample);
        int column = 0;
        while (column + 1 < columns && sample.time_s >= from_s + (column + 1) * width_s)
            ++column;
        in_column[static_cast<std::size_t>(column)].push_back(sample);
    }
    if (inside.empty())
        return kept;
    add(inside.front());
    for (const auto& column : in_column) {
        if (column.empty())
            continue;
        const auto lower = [](const auto& a, const auto& b) { return a.pressure_cmH2O < b.pressure_cmH2O; };
        const auto low = *std::min_element(column.begin(), column.end(), lower);
        const auto high = *std::max_element(column.begin(), column.end(), lower);
        add(low.time_s < high.time_s ? low : high);
        add(low.time_s < high.time_s ? high : low);
    }
    add(inside.back());
    return kept;
}

TEST(TraceHistory, KeepsLowestAndHighestOfEachColumnInTimeOrder)
{
    const auto history = history_of({{0.0, 1}, {0.125, 5}, {0.25, -3}, {0.375, 2}, {1.0, 7}, {1.5, 8}, {1.75, 6}});
    const auto kept = history.thinned(0.0, 2.0, 2);
    // First of all; 5 and -3; 8 and 6, which is also the last of all.
    ASSERT_THAT(kept, SizeIs(5));
    EXPECT_EQ(kept[0].pressure_cmH2O, 1);
    EXPECT_EQ(kept[1].pressure_cmH2O, 5);
    EXPECT_EQ(kept[2].pressure_cmH2O, -3);
    EXPECT_EQ(kept[3].pressure_cmH2O, 8);
    EXPECT_EQ(kept[4].pressure_cmH2O, 6);
}

TEST(TraceHistory, ThinsAsIfItLookedAtEverySample)
{
    auto samples = sine(20'000);
    samples[777].pressure_cmH2O = 99.0;
    const auto history = history_of(samples);
    for (const auto& [from_s, to_s, columns] :
         {std::tuple{0.0, 20.0, 640}, {0.0, 20.0, 7}, {3.0, 4.0, 1200}, {5.5, 11.25, 33}, {0.0, 1.0, 1}}) {
        const auto kept = history.thinned(from_s, to_s, columns);
        const auto plain = plainly_thinned(samples, from_s, to_s, columns);
        ASSERT_EQ(kept.size(), plain.size()) << columns;
        for (std::size_t i = 0; i < kept.size(); ++i) {
            // Where one value stands several times in a column, either sample draws the same picture.
            EXPECT_EQ(kept[i].pressure_cmH2O, plain[i].pressure_cmH2O) << columns << ", " << i;
        }
    }
}

TEST(TraceHistory, ASpikeOfOneSampleAmongAHundredThousandStays)
{
    auto samples = sine(100'000);
    samples[54'321].pressure_cmH2O = 99.0;
    EXPECT_TRUE(contains(history_of(samples).thinned(0.0, 100.0, 800), samples[54'321]));
}

TEST(TraceHistory, GivesAtMostTwoAColumnAndTheTwoEnds)
{
    const auto samples = sine(50'000);
    const auto history = history_of(samples);
    for (const int columns : {1, 2, 7, 640, 1200}) {
        const auto kept = history.thinned(0.0, 50.0, columns);
        EXPECT_LE(kept.size(), 2 * static_cast<std::size_t>(columns) + 2);
        EXPECT_TRUE(is_in_time_order(kept));
        EXPECT_TRUE(contains(kept, samples.front()));
        EXPECT_TRUE(contains(kept, samples.back()));
    }
}

TEST(TraceHistory, LeavesOutWhatLiesOutsideTheInterval)
{
    const auto kept = history_of(sine(100, 8.0)).thinned(2.0, 3.0, 600);
    ASSERT_THAT(kept, SizeIs(9));
    EXPECT_EQ(kept.front().time_s, 2.0);
    EXPECT_EQ(kept.back().time_s, 3.0);
}

TEST(TraceHistory, GivesNothingWhereThereIsNothingToDraw)
{
    const auto history = history_of(sine(100, 8.0));
    EXPECT_THAT(TraceHistory().thinned(0.0, 1.0, 10), IsEmpty());
    EXPECT_THAT(history.thinned(0.0, 1.0, 0), IsEmpty());
    EXPECT_THAT(history.thinned(1.0, 1.0, 10), IsEmpty());
    EXPECT_THAT(history.thinned(20.0, 30.0, 10), IsEmpty());
    EXPECT_THAT(history.thinned(-20.0, -10.0, 10), IsEmpty());
}

TEST(TraceHistory, SeesTimeThatIsMissingAlsoBetweenTwoCalls)
{
    TraceHistory history(10.0);
    history.append(std::vector<LiveSample>{{0.0, 0}, {0.1, 0}, {0.2, 0}});
    history.append(std::vector<LiveSample>{{1.5, 0}, {1.6, 0}, {1.9, 0}});
    ASSERT_THAT(history.gaps(), SizeIs(1)); // 0.3 s are no more than three intervals
    EXPECT_EQ(history.gaps().front().from_s, 0.2);
    EXPECT_EQ(history.gaps().front().to_s, 1.5);
}

TEST(TraceHistory, FindsTheSampleUnderThePointer)
{
    const auto history = history_of(sine(1000, 8.0));
    EXPECT_EQ(history.nearest(50.03)->time_s, 50.0);
    EXPECT_EQ(history.nearest(50.07)->time_s, 50.125);
    EXPECT_EQ(history.nearest(-3.0)->time_s, 0.0);
    EXPECT_EQ(history.nearest(1e6)->time_s, 999.0 / 8.0);
    EXPECT_FALSE(TraceHistory().nearest(0.0).has_value());
}

TEST(TraceHistory, IsEmptyAfterClear)
{
    auto history = history_of(sine(100));
    EXPECT_EQ(history.size(), 100U);
    history.clear();
    EXPECT_TRUE(history.empty());
    EXPECT_THAT(history.thinned(0.0, 1.0, 10), IsEmpty());
}

} // namespace
} // namespace zeroline::session
