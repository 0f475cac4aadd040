#include "gui/session/unit_trend.hpp"

#include <gmock/gmock.h>

namespace zeroline::session {
namespace {

using unit_register::Rows;

Rows figure(const std::string& day, double mean, const std::string& measurand = "insufflation-pressure")
{
    return {{"day", day},
            {"next_due", "2027-03-01"},
            {"measurand", measurand},
            {"preset", "day"},
            {"compared_with", "prescribed"},
            {"unit", "cmH2O"},
            {"target", 40.0},
            {"lower_limit", 38.0},
            {"upper_limit", 42.0},
            {"mean", mean},
            {"mean_uncertainty", 0.3},
            {"worst", mean},
            {"worst_uncertainty", 0.4},
            {"verdict", mean > 42.0 ? "fail" : "pass"}};
}

TEST(UnitTrend, SaysHowFarEachVisitWasOffWithinTheLimitsOfThatVisit)
{
    auto figures = Rows::array({figure("2024-03-01", 40.5), figure("2025-03-01", 42.5)});
    const auto trends = trends_of(figures);
    ASSERT_EQ(trends.size(), 1u);
    EXPECT_EQ(trends[0].name, "insufflation pressure (day)");
    ASSERT_EQ(trends[0].visits.size(), 2u);
    EXPECT_DOUBLE_EQ(trends[0].visits[0].error, 0.5);
    EXPECT_EQ(trends[0].visits[0].lower, -2.0);
    EXPECT_EQ(trends[0].visits[0].upper, 2.0);
    EXPECT_EQ(trends[0].visits[0].expanded_uncertainty, 0.3);
    EXPECT_EQ(trends[0].visits[1].tone, Tone::fail);
    EXPECT_EQ(trends[0].centre, 1.5) << "the mean of both";
    EXPECT_TRUE(trends[0].drift.isEmpty()) << "two visits make no line";
}

TEST(UnitTrend, SaysFromFourVisitsOnHowAQuantityDriftsAndWhenToCheckNext)
{
    auto figures = Rows::array();
    for (const auto& [day, mean] :
         {std::pair("2021-03-01", 40.0), {"2022-03-01", 40.2}, {"2023-03-01", 40.4}, {"2024-03-01", 40.6}})
        figures.push_back(figure(day, mean));
    EXPECT_TRUE(trends_of(figures)[0].drift.startsWith("+0.2")) << trends_of(figures)[0].drift.toStdString();
    const auto next = next_check_of(figures, QDate(2024, 3, 1));
    EXPECT_EQ(next.because_of, trends_of(figures)[0].name);
    EXPECT_TRUE(next.words.startsWith("Next check: 2027-03-01, as the interval says. Check it sooner: insufflation "
                                      "pressure (day) may reach its limit on 2025-"))
        << next.words.toStdString();
    EXPECT_TRUE(next_check_of(figures, QDate(2027, 3, 2)).words.startsWith("The next check was due on 2027-03-01"));
}

TEST(UnitTrend, SaysThatAQuantityWasNearItsLimitAtTheLastVisitAlready)
{
    auto figures = Rows::array();
    for (const auto& [day, mean] :
         {std::pair("2021-03-01", 40.2), {"2022-03-01", 41.0}, {"2023-03-01", 41.4}, {"2024-03-01", 41.95}})
        figures.push_back(figure(day, mean));
    EXPECT_EQ(next_check_of(figures, QDate(2024, 4, 1)).words.toStdString(),
              "Next check: 2027-03-01, as the interval says. Check it sooner: insufflation pressure (day) was at its "
              "limit or near it at the visit of 2024-03-01.");
}

TEST(UnitTrend, PutsQuantitiesWithoutLimitsLast)
{
    auto without = figure("2024-03-01", 1.0, "exsufflation-pressure");
    without["lower_limit"] = without["upper_limit"] = nullptr;
    const auto trends = trends_of(Rows::array({without, figure("2024-03-01", 40.0)}));
    ASSERT_EQ(trends.size(), 2u);
    EXPECT_TRUE(trends[0].visits[0].lower.has_value());
    EXPECT_FALSE(trends[1].visits[0].lower.has_value());
    EXPECT_TRUE(next_check_of(Rows::array(), QDate(2024, 3, 2)).words.isEmpty());
}

TEST(UnitTrend, SaysSinceWhenACheckIsDueThatTheIntervalSays)
{
    const auto figures = Rows::array({figure("2024-03-01", 40.5)});
    EXPECT_EQ(next_check_of(figures, QDate(2027, 3, 1)).words, "Next check: 2027-03-01, as the interval says.");
    EXPECT_EQ(next_check_of(figures, QDate(2027, 3, 2)).words,
              "The next check was due on 2027-03-01, as the interval says.");
}

} // namespace
} // namespace zeroline::session
