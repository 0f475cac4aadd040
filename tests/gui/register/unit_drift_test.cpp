#include "gui/register/unit_drift.hpp"

#include <gmock/gmock.h>

#include <QDate>

#include <cmath>

namespace zeroline::unit_register {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

Rows visit(const std::string& day, double mean, double u95 = 0.2, Value target = 40.0)
{
    return Rows{{"day", day},       {"next_due", "2027-06-01"},      {"measurand", "insufflation-pressure"},
                {"preset", "day"},  {"compared_with", "prescribed"}, {"unit", "cmH2O"},
                {"target", target}, {"lower_limit", 38.0},           {"upper_limit", 42.0},
                {"mean", mean},     {"mean_uncertainty", u95}};
}

Rows visit_of(int year, double mean) { return visit(std::to_string(year) + "-01-01", mean); }

// Flowrate data, NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, from memory: centre 50.81, mean
// moving range 1.8778, limits 45.816 and 55.804 by its constant 1.128; the exact 2 / sqrt(pi) differs in the fourth
// digit.
TEST(UnitDrift, HasTheLimitsOfIndividualsThatTheHandbookGives)
{
    auto rows = Rows::array();
    const std::vector<double> flow = {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
    for (std::size_t i = 0; i < flow.size(); ++i)
        rows.push_back(visit("20" + std::to_string(10 + i) + "-01-01", flow[i], 0.2, nullptr));
    const auto drift = drift_of(rows);
    ASSERT_THAT(drift.quantities, SizeIs(1));
    EXPECT_NEAR(*drift.quantities[0].centre, 50.81, 1e-9);
    EXPECT_NEAR(*drift.quantities[0].lower, 50.81 - 3 * 1.8778 / 1.128, 0.002);
    EXPECT_NEAR(*drift.quantities[0].upper, 50.81 + 3 * 1.8778 / 1.128, 0.002);
}

TEST(UnitDrift, SaysNoDateBeforeTheFourthVisit)
{
    auto rows = Rows::array();
    rows.push_back(visit("2023-01-01", 40.0));
    rows.push_back(visit("2024-01-01", 40.5));
    rows.push_back(visit("2025-01-01", 41.0));
    EXPECT_THAT(drift_of(rows).quantities[0].reaches_limit, IsEmpty());
    EXPECT_FALSE(drift_of(rows).quantities[0].per_year.has_value());
    rows.push_back(visit("2026-01-01", 41.5));
    EXPECT_NEAR(*drift_of(rows).quantities[0].per_year, 0.5, 0.001);
    EXPECT_EQ(drift_of(rows).quantities[0].reaches_limit.substr(0, 4), "2026");
}

// Textbook formula of the band of a next reading (Draper and Smith, "Applied Regression Analysis", 1.4), with Student's
// factor for 95.45 % and 2 degrees of freedom, 4.5266 (JCGM 100:2008, table G.2: 4.53). ILAC-G24 / OIML D 10 works no
// figures out for its method 2.
TEST(UnitDrift, HasTheLineAndTheDayOfTheTextbookFromStandardUncertainties)
{
    auto rows = Rows::array();
    for (int visit = 0; visit < 4; ++visit)
        rows.push_back(visit_of(2020 + visit, 40.0 + 0.4 * visit));
    const auto drift = drift_of(rows).quantities.at(0);
    constexpr double u = 0.1; // U = 0.2 at the factor 2
    EXPECT_NEAR(*drift.per_year_u, u / std::sqrt(5.0), 1e-4) << "years 0 to 3: the squares about their mean make 5";
    const auto margin = [](double x) {
        return 2.0 - 0.4 * x - 4.5266 * u * std::sqrt(1.0 + 1.0 / 4.0 + (x - 1.5) * (x - 1.5) / 5.0);
    };
    double low = 3.0, high = 5.0;
    for (int i = 0; i < 50; ++i)
        (margin(0.5 * (low + high)) > 0.0 ? low : high) = 0.5 * (low + high);
    const auto day = QDate(2020, 1, 1).addDays(static_cast<qint64>(low * 365.25));
    EXPECT_LE(std::abs(QDate::fromString(QString::fromStdString(drift.reaches_limit), Qt::ISODate).daysTo(day)), 2)
        << drift.reaches_limit;
}

TEST(UnitDrift, BringsTheNextCheckForwardAndNeverPutsItOff)
{
    auto rows = Rows::array();
    for (int year = 2022; year <= 2026; ++year)
        rows.push_back(visit(std::to_string(year) + "-06-01", 40.0 + 0.4 * (year - 2022)));
    const auto drifting = drift_of(rows);
    EXPECT_EQ(drifting.next_check, drifting.quantities[0].reaches_limit);
    EXPECT_LT(drifting.next_check, drifting.next_due);
    EXPECT_EQ(drifting.method, kControlChart);
    auto steady = Rows::array();
    for (int year = 2022; year <= 2026; ++year)
        steady.push_back(visit(std::to_string(year) + "-06-01", 40.0, 0.4));
    // Far ahead even the band of a steady unit grows to the limit; that puts nothing off.
    EXPECT_EQ(drift_of(steady).next_check, "2027-06-01");
    EXPECT_EQ(drift_of(steady).method, kFixedInterval);
    EXPECT_GT(drift_of(steady).quantities[0].reaches_limit, "2030");
}

TEST(UnitDrift, NamesTheVisitThatLiesOutsideTheLimits)
{
    auto rows = Rows::array();
    for (int i = 0; i < 12; ++i)
        rows.push_back(visit("20" + std::to_string(10 + i) + "-01-01", i % 2 == 0 ? 40.0 : 40.1));
    rows.push_back(visit("2026-01-01", 41.9));
    EXPECT_THAT(drift_of(rows).quantities[0].outside, ElementsAre("2026-01-01"));
}

TEST(UnitDrift, NamesARunOfVisitsOnOneSide)
{
    auto rows = Rows::array();
    for (int i = 0; i < 20; ++i)
        rows.push_back(visit("20" + std::to_string(10 + i) + "-01-01", i < 12 ? 40.0 + 0.1 * (i % 2) : 40.12));
    EXPECT_THAT(drift_of(rows).quantities[0].runs, testing::Contains("2029-01-01: 8 in a row on one side"));
}

TEST(UnitDrift, OfVisitsOfOneDayGivesNoLine)
{
    auto rows = Rows::array();
    for (int i = 0; i < 5; ++i)
        rows.push_back(visit("2026-01-01", 40.0 + i));
    EXPECT_FALSE(drift_of(rows).quantities[0].per_year.has_value());
}

} // namespace
} // namespace zeroline::unit_register
