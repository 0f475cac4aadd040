#include "gui/window/column_thinning.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace zeroline::window {
namespace {

using session::LiveSample;
using testing::IsEmpty;
using testing::SizeIs;

constexpr double kPi = 3.14159265358979323846;

std::vector<LiveSample> sine(int samples, double rate_hz)
{
    std::vector<LiveSample> made;
    for (int i = 0; i < samples; ++i)
        made.push_back({i / rate_hz, 40.0 * std::sin(2.0 * kPi * i / rate_hz)});
    return made;
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

TEST(ColumnThinning, KeepsLowestAndHighestOfEachColumnInTimeOrder)
{
    const std::vector<LiveSample> samples = {{0.0, 1}, {0.1, 5}, {0.2, -3}, {0.3, 2}, {1.0, 7}, {1.5, 8}, {1.9, 6}};
    const auto kept = thinned_to_columns(samples, 0.0, 2.0, 2);
    // First of all; 5 and -3; 8 and 6, which is also the last of all.
    ASSERT_THAT(kept, SizeIs(5));
    EXPECT_EQ(kept[0].pressure_cmH2O, 1);
    EXPECT_EQ(kept[1].pressure_cmH2O, 5);
    EXPECT_EQ(kept[2].pressure_cmH2O, -3);
    EXPECT_EQ(kept[3].pressure_cmH2O, 8);
    EXPECT_EQ(kept[4].pressure_cmH2O, 6);
}

TEST(ColumnThinning, ASpikeOfOneSampleAmongAHundredThousandStays)
{
    auto samples = sine(100'000, 1000.0);
    samples[54'321].pressure_cmH2O = 99.0;
    EXPECT_TRUE(contains(thinned_to_columns(samples, 0.0, 100.0, 800), samples[54'321]));
}

TEST(ColumnThinning, GivesAtMostTwoAColumnAndTheTwoEnds)
{
    const auto samples = sine(50'000, 1000.0);
    for (const int columns : {1, 2, 7, 640, 1200}) {
        const auto kept = thinned_to_columns(samples, 0.0, 50.0, columns);
        EXPECT_LE(kept.size(), 2 * static_cast<std::size_t>(columns) + 2);
        EXPECT_TRUE(is_in_time_order(kept));
        EXPECT_TRUE(contains(kept, samples.front()));
        EXPECT_TRUE(contains(kept, samples.back()));
    }
}

TEST(ColumnThinning, LeavesFewSamplesAsTheyAre)
{
    const auto samples = sine(30, 10.0);
    EXPECT_THAT(thinned_to_columns(samples, 0.0, 3.0, 600), SizeIs(30));
}

TEST(ColumnThinning, LeavesOutWhatLiesOutsideTheInterval)
{
    const auto samples = sine(100, 10.0);
    const auto kept = thinned_to_columns(samples, 2.0, 3.0, 600);
    EXPECT_THAT(kept, SizeIs(11));
    EXPECT_EQ(kept.front().time_s, 2.0);
    EXPECT_EQ(kept.back().time_s, 3.0);
}

TEST(ColumnThinning, GivesNothingWhereThereIsNothingToDraw)
{
    const auto samples = sine(100, 10.0);
    EXPECT_THAT(thinned_to_columns({}, 0.0, 1.0, 10), IsEmpty());
    EXPECT_THAT(thinned_to_columns(samples, 0.0, 1.0, 0), IsEmpty());
    EXPECT_THAT(thinned_to_columns(samples, 1.0, 1.0, 10), IsEmpty());
    EXPECT_THAT(thinned_to_columns(samples, 20.0, 30.0, 10), IsEmpty());
}

TEST(TraceTail, KeepsTheLastSecondsHoweverLongTheTrace)
{
    TraceTail tail(20.0);
    const auto samples = sine(120'000, 1000.0);
    for (std::size_t i = 0; i < samples.size(); i += 100)
        tail.append(std::span(samples).subspan(i, 100));
    EXPECT_EQ(tail.all().back().time_s, samples.back().time_s);
    EXPECT_NEAR(tail.all().front().time_s, samples.back().time_s - 20.0, 0.0015);
    EXPECT_THAT(tail.last(2.0), SizeIs(testing::AllOf(testing::Ge(2000U), testing::Le(2001U))));
}

TEST(TraceTail, IsEmptyBeforeTheFirstSampleAndAfterClear)
{
    TraceTail tail(20.0);
    EXPECT_THAT(tail.all(), IsEmpty());
    const std::vector<LiveSample> one = {{1.0, 2.0}};
    tail.append(one);
    EXPECT_THAT(tail.all(), SizeIs(1));
    tail.clear();
    EXPECT_TRUE(tail.empty());
}

} // namespace
} // namespace zeroline::window
