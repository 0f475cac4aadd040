// One cycle unlike the others: excused once, and never for what only a unit does (docs/method.md, judgement).

#include "tests/analysis/verification/synthetic.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace zeroline::verification {
namespace {

using metrology::Outcome;
using synthetic::bench;
using synthetic::find;
using synthetic::has_finding;
using synthetic::has_reason;
using synthetic::Plan;
using synthetic::said;

/// `others` healthy cycles after the lead cycle and one whose insufflation falls short, as with a hose that was pulled
/// at.
Plan touched(std::size_t others, double insufflation_cmH2O = 35.0)
{
    Plan plan;
    plan.cycles.resize(others + 2);
    plan.cycles[3].insufflation_cmH2O = insufflation_cmH2O;
    return plan;
}

TEST(OneCycleUnlike, asks_for_more_cycles_and_condemns_nothing)
{
    const auto result = bench(touched(5)).result();
    EXPECT_TRUE(has_finding(result, "one-cycle-unlike")) << said(result);
    EXPECT_FALSE(has_finding(result, "insufflation-off")) << said(result);
    EXPECT_EQ(result.verdict, Outcome::incomplete) << said(result);
    EXPECT_THAT(find(result, measurand::insufflation_pressure)->reason->text,
                testing::HasSubstr("5 judged cycles, 10 needed, as many again"));
    const auto it = std::find_if(result.cycles.begin(), result.cycles.end(),
                                 [](const Cycle& cycle) { return cycle.why_not_judged == "one-cycle-unlike"; });
    ASSERT_NE(it, result.cycles.end());
    EXPECT_NEAR(it->quantities.at(measurand::insufflation_pressure).value, 35.0, 0.2) << "it stays shown";
}

TEST(OneCycleUnlike, passes_once_as_many_cycles_again_are_in_order)
{
    const auto result = bench(touched(10)).result();
    EXPECT_TRUE(has_finding(result, "one-cycle-unlike")) << said(result);
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
}

TEST(OneCycleUnlike, is_the_units_the_second_time)
{
    auto plan = touched(10);
    plan.cycles[6].insufflation_cmH2O = 35.0;
    const auto twice = bench(plan).result();
    EXPECT_FALSE(has_finding(twice, "one-cycle-unlike")) << said(twice);
    EXPECT_EQ(twice.verdict, Outcome::fail);
    auto again = bench(touched(10));
    again.run.attempt = 2;
    again.run.unlike_in_attempt = 1;
    EXPECT_EQ(again.result().verdict, Outcome::fail) << "an earlier attempt has left one out already";
}

TEST(OneCycleUnlike, excuses_no_over_pressure_beyond_its_uncertainty)
{
    const auto result = bench(touched(10, 45.0)).result();
    EXPECT_EQ(result.verdict, Outcome::fail) << said(result);
    EXPECT_TRUE(result.critical);
}

TEST(OneCycleUnlike, excuses_no_missing_phase)
{
    auto plan = touched(10, 40.0);
    plan.cycles[5].exsufflation_s = 0.0;
    EXPECT_EQ(bench(plan).result().verdict, Outcome::fail);
}

TEST(OneCycleUnlike, excuses_no_value_that_the_others_scatter_to)
{
    auto plan = touched(5, 37.9);
    for (std::size_t i = 0; i < plan.cycles.size(); ++i) {
        plan.cycles[i].insufflation_cmH2O -= i % 2 == 0 ? 1.2 : 0.0;
    }
    const auto result = bench(plan).result();
    EXPECT_FALSE(has_finding(result, "one-cycle-unlike")) << said(result);
    EXPECT_EQ(result.verdict, Outcome::fail) << said(result);
}

TEST(OneCycleUnlike, is_not_looked_for_where_nobody_logged_the_run)
{
    auto subject = bench(touched(5));
    subject.with_run = false;
    EXPECT_FALSE(has_finding(subject.result(), "one-cycle-unlike"));
}

} // namespace
} // namespace zeroline::verification
