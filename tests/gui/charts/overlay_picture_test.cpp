#include "gui/charts/overlay_chart.hpp"

#include "tests/gui/charts/offscreen_application.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace zeroline::charts {
namespace {

std::vector<session::LiveSample> cycle_at(double level_cmH2O)
{
    std::vector<session::LiveSample> samples;
    for (int i = 0; i < 5000; ++i)
        samples.push_back({i / 1000.0, i < 1500 ? level_cmH2O : i < 3000 ? -level_cmH2O : 0.0});
    return samples;
}

session::CycleOverlay two_cycles() { return {{{1, true, cycle_at(40.0)}, {2, false, cycle_at(62.0)}}, cycle_at(40.0)}; }

const OverlayPicture::Words kWords{"s", "cmH2O", "each", "not judged", "median", "before"};

TEST(OverlayPicture, ShowsEachCycleThinnedAndTheMedianOnTopWithALegend)
{
    const OverlayPicture overlay(two_cycles(), {{0.0, 1.5, {38.0, 42.0}}});
    const auto picture = overlay.between(0.0, 5.0, 400, kWords);
    ASSERT_EQ(picture.curves.size(), 3);
    EXPECT_EQ(picture.curves[0].pen, Pen::cycle);
    EXPECT_EQ(picture.curves[1].pen, Pen::unjudged);
    EXPECT_EQ(picture.curves[2].pen, Pen::median);
    for (const auto& curve : picture.curves)
        EXPECT_LE(curve.points.size(), 2 * 400 + 2);
    EXPECT_EQ(picture.up.high, 70.0);
    EXPECT_TRUE(picture.legend);
    EXPECT_EQ(picture.areas.size(), 1);
}

TEST(OverlayPicture, LaysTheMedianOfTheVisitBeforeUnderTodays)
{
    const OverlayPicture overlay(two_cycles(), {}, cycle_at(36.0));
    const auto picture = overlay.between(0.0, 5.0, 400, kWords);
    ASSERT_EQ(picture.curves.size(), 4);
    EXPECT_EQ(picture.curves[2].pen, Pen::earlier);
    EXPECT_EQ(picture.curves[2].name, "before");
    EXPECT_EQ(picture.curves[2].points.front().y(), 36.0);
    EXPECT_EQ(picture.curves[3].pen, Pen::median) << "today's lies over it";
}

TEST(OverlayChart, SaysTheMedianUnderThePointer)
{
    application();
    OverlayChart chart;
    chart.resize(600, 300);
    chart.show_cycles({two_cycles(), {}});
    chart.show();
    chart.point_at(1.0);
    EXPECT_EQ(chart.under_pointer(), "median at 1.00 s: +40.0 cmH2O");
}

} // namespace
} // namespace zeroline::charts
