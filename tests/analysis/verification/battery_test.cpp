// A preset that ran on mains and on battery: a row for each, and their difference.

#include "tests/analysis/verification/synthetic.hpp"

#include "analysis/signal/statistics.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace zeroline::verification {
namespace {

using metrology::Outcome;
using testing::HasSubstr;

std::vector<const Judgement*> rows_of(const Assessment& result, const std::string& measurand)
{
    std::vector<const Judgement*> rows;
    for (const auto& judgement : result.judgements) {
        if (judgement.measurand == measurand) {
            rows.push_back(&judgement);
        }
    }
    return rows;
}

/// Seven cycles on mains, seven on battery with another insufflation pressure.
synthetic::Bench on_both(double insufflation_on_battery_cmH2O)
{
    synthetic::Plan plan;
    plan.second_span.assign(7, {.insufflation_cmH2O = insufflation_on_battery_cmH2O});
    auto bench = synthetic::bench(plan);
    std::string power = "mains";
    for (auto& span : bench.run.spans) {
        if (span.what == SpanKind::automatic) {
            span.power = std::exchange(power, "battery");
        }
    }
    return bench;
}

TEST(Battery, has_a_row_of_its_own_beside_the_one_on_mains)
{
    const auto result = on_both(39.0).result();
    const auto rows = rows_of(result, measurand::insufflation_pressure);
    ASSERT_EQ(rows.size(), 2U);
    EXPECT_EQ(rows[0]->power, "mains");
    EXPECT_NEAR(*rows[0]->mean, 40.0, 0.05);
    EXPECT_EQ(rows[1]->power, "battery");
    EXPECT_NEAR(*rows[1]->mean, 39.0, 0.05);
    EXPECT_EQ(rows_of(result, measurand::insufflation_duration).size(), 1U) << "a battery does not change a timer";
    EXPECT_EQ(result.verdict, Outcome::pass);
}

// 2 cmH2O: common practice, no source. The calibration is in neither end of the difference.
TEST(Battery, is_judged_by_how_far_its_plateau_is_from_the_one_on_mains)
{
    const auto result = on_both(38.9).result();
    const auto rows = rows_of(result, measurand::battery_insufflation);
    ASSERT_EQ(rows.size(), 1U);
    EXPECT_NEAR(*rows[0]->worst, -1.1, 0.05);
    EXPECT_EQ(rows[0]->limits.lower, -2.0);
    EXPECT_EQ(rows[0]->limits.upper, 2.0);
    EXPECT_THAT(rows[0]->basis, HasSubstr("no published source"));
    EXPECT_EQ(rows[0]->verdict, Outcome::pass);
    EXPECT_NEAR(*rows_of(result, measurand::battery_exsufflation)[0]->worst, 0.0, 0.05);
}

// By hand, JCGM 100:2008, 5.1.2: the standard errors of both means, the zero's drift as a rectangle, and half a step of
// the sensor for each.
TEST(Battery, adds_up_the_uncertainty_of_both_means_and_of_the_zero_between_them)
{
    const auto bench = on_both(38.9);
    const auto result = bench.result();
    std::vector<double> mains, battery;
    for (const auto& cycle : result.cycles) {
        const auto level = cycle.quantities.find(measurand::insufflation_pressure);
        if (cycle.judged && level != cycle.quantities.end()) {
            (bench.run.spans[cycle.span].power == "battery" ? battery : mains).push_back(level->second.value);
        }
    }
    const auto square_of_error = [](const std::vector<double>& values) {
        const double deviation = signal::standard_deviation(values).value();
        return deviation * deviation / static_cast<double>(values.size());
    };
    const double half_step = 0.5 * bench.instrument.range.resolution;
    const double u = std::sqrt(square_of_error(mains) + square_of_error(battery) +
                               *result.zero.drift * *result.zero.drift / 3.0 + 2.0 * half_step * half_step / 3.0);
    const auto& row = *rows_of(result, measurand::battery_insufflation)[0];
    EXPECT_NEAR(metrology::combine(row.budget).standard_uncertainty, u, 1e-12);
    EXPECT_GT(*row.expanded_uncertainty, 1.5 * u);
}

TEST(Battery, fails_a_unit_that_is_weak_on_it_although_each_pressure_keeps_its_limits)
{
    auto bench = on_both(37.5);
    bench.order.tolerances.pressure = Tolerance{};
    bench.order.tolerances.pressure->absolute = 5.0;
    bench.order.tolerances.pressure->basis = "order";
    const auto result = bench.result();
    EXPECT_EQ(rows_of(result, measurand::insufflation_pressure)[1]->verdict, Outcome::pass);
    const auto& row = *rows_of(result, measurand::battery_insufflation)[0];
    EXPECT_EQ(row.verdict, Outcome::fail);
    EXPECT_EQ(row.reason->code, "outside-limits");
    EXPECT_EQ(result.verdict, Outcome::fail);
    EXPECT_EQ(result.unit_accuracy, Outcome::pass);
    bench.house.battery_cmH2O = 3.0;
    EXPECT_EQ(rows_of(bench.result(), measurand::battery_insufflation)[0]->verdict, Outcome::pass) << "the bench's own";
}

TEST(Battery, leaves_a_run_on_one_source_alone)
{
    auto bench = on_both(39.0);
    for (auto& span : bench.run.spans) {
        span.power = span.power.empty() ? "" : "mains";
    }
    const auto result = bench.result();
    ASSERT_EQ(rows_of(result, measurand::insufflation_pressure).size(), 1U);
    EXPECT_TRUE(rows_of(result, measurand::insufflation_pressure)[0]->power.empty());
    EXPECT_TRUE(rows_of(result, measurand::battery_insufflation).empty());
}

} // namespace
} // namespace zeroline::verification
