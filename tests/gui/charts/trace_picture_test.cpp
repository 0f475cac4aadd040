#include "gui/charts/trace_picture.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace zeroline::charts {
namespace {

using session::PhaseBand;

session::TraceHistory history_of(int count, double rate_hz, int leave_out_from = -1, int leave_out_to = -1)
{
    session::TraceHistory history(rate_hz);
    for (int i = 0; i < count; ++i) {
        if (i >= leave_out_from && i < leave_out_to)
            continue;
        const session::LiveSample sample{i / rate_hz, i % 2 == 0 ? 40.0 : 41.0};
        history.append({&sample, 1});
    }
    return history;
}

std::vector<PhaseBand> bands_of_cycles(int cycles)
{
    std::vector<PhaseBand> bands;
    for (int i = 0; i < cycles; ++i) {
        bands.push_back({5.0 * i, 5.0 * i + 1.5, {38.0, 42.0}});
        bands.push_back({5.0 * i + 1.5, 5.0 * i + 3.0, {-42.0, -38.0}});
    }
    return bands;
}

Picture picture_of(const session::TraceHistory& history, const session::RunMarks& marks, double from_s, double to_s,
                   int columns, double origin_s = 0.0)
{
    return TracePicture{history, marks, origin_s, "s", "cmH2O", 50.0, columns}.between(from_s, to_s);
}

TEST(RoundStep, IsOneTwoOrFiveTimesAPowerOfTen)
{
    EXPECT_EQ(round_step(20.0, 10.0), 2.0);
    EXPECT_NEAR(round_step(0.48, 5.0), 0.1, 1e-12);
    EXPECT_EQ(round_step(3600.0, 8.0), 500.0);
}

TEST(EdgeFor, GrowsInTensAndInSmallStepsCloseToZero)
{
    EXPECT_EQ(edge_for(12.0, 50.0), 50.0);
    EXPECT_EQ(edge_for(-63.0, 50.0), 70.0);
    EXPECT_EQ(edge_for(0.3, 1.0), 1.0);
    EXPECT_EQ(edge_for(-1.3, 1.0), 2.0);
    EXPECT_EQ(edge_for(40.0, 1.0), 40.0);
    EXPECT_EQ(edge_for(1e9, 50.0), 10'000.0) << "a wrong unit must not make an axis without ticks";
    EXPECT_EQ(edge_for(std::nan(""), 50.0), 50.0);
}

TEST(TracePicture, PartsTheLineWhereNothingCameInAndHatchesIt)
{
    const auto history = history_of(1000, 100.0, 400, 600);
    session::RunMarks marks;
    marks.lost.assign(history.gaps().begin(), history.gaps().end());
    const auto picture = picture_of(history, marks, 0.0, 10.0, 500);
    ASSERT_EQ(picture.curves.size(), 2);
    EXPECT_NEAR(picture.curves[0].points.back().x(), 3.99, 0.011);
    EXPECT_NEAR(picture.curves[1].points.front().x(), 6.0, 0.011);
    ASSERT_EQ(picture.areas.size(), 1);
    EXPECT_EQ(picture.areas[0].ground, Ground::missing);
    EXPECT_NEAR(picture.areas[0].to - picture.areas[0].from, 2.01, 0.02);
}

TEST(TracePicture, CallsZeroWhatItIsToldToAndKeepsTheLineWithinTwoPointsAColumn)
{
    const auto history = history_of(100'000, 1000.0);
    const auto picture = picture_of(history, {}, 80.0, 103.0, 300, 100.0);
    EXPECT_EQ(picture.across.low, -20.0);
    EXPECT_EQ(picture.across.high, 3.0);
    ASSERT_EQ(picture.curves.size(), 1);
    EXPECT_LE(picture.curves[0].points.size(), 2 * 300 + 2);
    EXPECT_GE(picture.curves[0].points.size(), 500);
    EXPECT_EQ(picture.curves[0].pen, Pen::dense);
    EXPECT_EQ(picture_of(history, {}, 80.0, 81.0, 300).curves[0].pen, Pen::trace) << "few samples a column";
}

TEST(TracePicture, ShowsTheBandsInViewAndMergesThoseThatNoColumnTellsApart)
{
    const auto bands = bands_of_cycles(720);
    const auto near_by = areas_of(bands, 100.0, 120.0, 0.0, 1000);
    EXPECT_EQ(near_by.size(), 8) << "four cycles, two phases each";
    const auto whole = areas_of(bands, 0.0, 3600.0, 0.0, 1000);
    ASSERT_EQ(whole.size(), 2) << "an hour in a thousand columns: one band a phase";
    EXPECT_EQ(whole[0].low, 38.0);
    EXPECT_NEAR(whole[0].to, 3596.5, 1e-9);
    for (const int seconds : {300, 600, 1200, 2400})
        EXPECT_LE(areas_of(bands, 0.0, seconds, 0.0, 1000).size(), 300) << seconds << " s cost too much to paint";
}

TEST(TracePicture, TellsBandsOfNowFromThoseExpected)
{
    const auto areas = areas_of({{0.0, 1.0, {38.0, 42.0}, PhaseBand::When::seen},
                                 {1.0, 2.0, {38.0, 42.0}, PhaseBand::When::now},
                                 {2.0, 3.0, {38.0, 42.0}, PhaseBand::When::expected}},
                                0.0, 3.0, 0.0, 300);
    ASSERT_EQ(areas.size(), 3);
    EXPECT_EQ(areas[0].ground, Ground::allowed);
    EXPECT_EQ(areas[1].ground, Ground::now);
    EXPECT_EQ(areas[2].ground, Ground::expected);
}

TEST(TracePicture, NumbersTheCyclesInViewAndPutsThoseNotJudgedInBrackets)
{
    const auto history = history_of(3000, 100.0);
    session::RunMarks marks;
    marks.cycles = {{1, 0.0, 5.0, true}, {2, 5.0, 10.0, false}, {3, 25.0, 30.0, true}};
    const auto picture = picture_of(history, marks, 0.0, 12.0, 500);
    ASSERT_EQ(picture.marks.size(), 2);
    EXPECT_EQ(picture.marks[0].text, "1");
    EXPECT_EQ(picture.marks[1].text, "(2)");
}

} // namespace
} // namespace zeroline::charts
