#include "gui/charts/trend_chart.hpp"

#include "tests/gui/charts/offscreen_application.hpp"

#include <gmock/gmock.h>

namespace zeroline::charts {
namespace {

session::UnitTrend three_visits()
{
    session::UnitTrend trend;
    trend.unit = "cmH2O";
    trend.visits = {{QDate(2023, 3, 1), 0.2, 0.3, -2.0, 2.0, session::Tone::pass, {}},
                    {QDate(2024, 3, 1), 0.4, 0.3, -2.0, 2.0, session::Tone::pass, {}},
                    {QDate(2025, 3, 1), -3.1, 0.3, -1.0, 1.0, session::Tone::fail, {}}};
    trend.centre = -0.8;
    trend.lowest = -5.0;
    trend.highest = 4.0;
    return trend;
}

TEST(TrendPicture, ShowsEachVisitWithItsUncertaintyInTheLimitsOfThatVisit)
{
    const TrendPicture picture{three_visits()};
    const auto all = picture.all();
    const auto made = picture.between(all.from, all.to);
    ASSERT_EQ(made.areas.size(), 2) << "limits that stayed the same are one band";
    EXPECT_EQ(made.areas[0].high, 2.0);
    EXPECT_EQ(made.areas[1].high, 1.0);
    EXPECT_EQ(made.areas[0].to, made.areas[1].from);
    EXPECT_EQ(made.areas[0].to,
              static_cast<double>(QDate(2024, 3, 1).toJulianDay() + QDate(2025, 3, 1).toJulianDay()) / 2.0);
    EXPECT_EQ(std::count_if(made.curves.begin(), made.curves.end(), [](const auto& curve) { return curve.dots; }), 3);
    EXPECT_TRUE(std::any_of(made.curves.begin(), made.curves.end(),
                            [](const auto& curve) { return curve.dots && curve.pen == Pen::bad; }));
    EXPECT_LT(made.up.low, -5.0) << "the limits of the visits are seen";
    ASSERT_EQ(made.marks.size(), 3) << "a year each";
    EXPECT_EQ(made.marks[1].text, "2024");
}

TEST(TrendPicture, NamesMonthsWhereTheVisitsLieCloseTogether)
{
    auto trend = three_visits();
    trend.visits[0].day = QDate(2025, 1, 1);
    trend.visits[1].day = QDate(2025, 2, 1);
    const TrendPicture picture{trend};
    const auto made = picture.between(picture.all().from, picture.all().to);
    EXPECT_EQ(made.marks[1].text, "2025-01");
}

TEST(TrendChart, SaysTheVisitUnderThePointerInFigures)
{
    application();
    TrendChart chart;
    chart.resize(600, 300);
    chart.show_trend(three_visits());
    chart.point_at(static_cast<double>(QDate(2025, 2, 1).toJulianDay()));
    EXPECT_TRUE(chart.under_pointer().startsWith("2025-03-01")) << chart.under_pointer().toStdString();
    EXPECT_TRUE(chart.under_pointer().contains("-3.1") || chart.under_pointer().contains(QStringLiteral("\u22123.1")))
        << chart.under_pointer().toStdString();
    chart.show_nothing();
    EXPECT_TRUE(chart.under_pointer().isEmpty());
}

} // namespace
} // namespace zeroline::charts
