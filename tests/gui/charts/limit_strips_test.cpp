#include "gui/charts/limit_strips.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace zeroline::charts {
namespace {

session::ResultRow row_of(const char* measurand, std::optional<double> lower, std::optional<double> upper, double worst)
{
    session::ResultRow row;
    row.is.measurand = QLatin1String(measurand);
    row.is.unit = QString::fromStdString(row.is.known().unit);
    row.is.lower = lower;
    row.is.upper = upper;
    row.is.worst = worst;
    row.tone = session::Tone::pass;
    return row;
}

TEST(StripScale, PutsLimitsAtNothingAndOneWhateverTheUnit)
{
    const auto scale = StripScale::of(row_of("exsufflation-pressure", -42.0, -38.0, -40.0).is);
    ASSERT_TRUE(scale);
    EXPECT_DOUBLE_EQ(scale->at(-42.0), 0.0);
    EXPECT_DOUBLE_EQ(scale->at(-38.0), 1.0);
    EXPECT_DOUBLE_EQ(scale->at(-34.0), 2.0);
}

/// A return to zero of 0.15 s, at most 0.5 s allowed, stood near its limit, as if -0.5 s could be.
TEST(StripScale, BeginsAtNothingWhereAValueIsNeverBelowIt)
{
    const auto scale = StripScale::of(row_of("return-to-zero", std::nullopt, 0.5, 0.15).is);
    ASSERT_TRUE(scale);
    EXPECT_FALSE(scale->open_below);
    EXPECT_DOUBLE_EQ(scale->at(0.0), 0.0);
    EXPECT_DOUBLE_EQ(scale->at(0.15), 0.3);
}

TEST(LimitStrips, ShowEachQuantityWithLimitsAndTheWorstValueInItsPlace)
{
    const auto picture = limit_strips({row_of("insufflation-pressure", 38.0, 42.0, 39.9),
                                       row_of("exsufflation-pressure", -42.0, -38.0, -34.0),
                                       row_of("oscillation-amplitude", std::nullopt, std::nullopt, 2.0)});
    ASSERT_EQ(picture.up.rows.size(), 2) << "what has no limits has no strip";
    EXPECT_EQ(picture.areas.size(), 2);
    const auto farthest =
        std::max_element(picture.curves.begin(), picture.curves.end(),
                         [](const Curve& a, const Curve& b) { return a.points.front().x() < b.points.front().x(); });
    EXPECT_DOUBLE_EQ(farthest->points.front().x(), 2.0);
    EXPECT_GT(picture.across.high, 2.0) << "what lies far outside is in sight";
    const auto joins = std::count_if(picture.curves.begin(), picture.curves.end(), [](const Curve& curve) {
        return curve.pen == Pen::limit && curve.points.front().x() == 1.0 && curve.points.back().x() == 2.0;
    });
    EXPECT_EQ(joins, 1) << "and joined to its strip; the one inside is not";
}

} // namespace
} // namespace zeroline::charts
