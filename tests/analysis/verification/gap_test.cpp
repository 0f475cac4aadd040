// What was not seen is not missing: readings that got lost condemn no unit, and their cycles are run again.

#include "tests/analysis/verification/synthetic.hpp"

#include <gtest/gtest.h>

namespace zeroline::verification {
namespace {

using metrology::Outcome;
using synthetic::bench;
using synthetic::has_finding;
using synthetic::has_reason;
using synthetic::Plan;
using synthetic::said;

synthetic::Bench without(synthetic::Bench subject, double from_s, double to_s)
{
    trace::Trace kept;
    kept.sampling = subject.trace.sampling;
    for (std::size_t i = 0; i < subject.trace.size(); ++i) {
        if (subject.trace.time_s[i] <= from_s || subject.trace.time_s[i] >= to_s) {
            kept.time_s.push_back(subject.trace.time_s[i]);
            kept.pressure_cmH2O.push_back(subject.trace.pressure_cmH2O[i]);
        }
    }
    subject.trace = kept;
    return subject;
}

double first_judged_s(const Assessment& result)
{
    for (const auto& cycle : result.cycles) {
        if (cycle.judged) {
            return cycle.start_s;
        }
    }
    return 0.0;
}

class Gap : public testing::TestWithParam<double> {};

TEST_P(Gap, wherever_it_lies_condemns_no_unit)
{
    const auto whole = bench();
    const double from_s = first_judged_s(whole.result());
    for (double at_s = 0.0; at_s < 8.0; at_s += 0.13) {
        const auto result = without(whole, from_s + at_s, from_s + at_s + GetParam()).result();
        EXPECT_FALSE(metrology::is_fail(result.verdict)) << at_s << '\n' << said(result);
        EXPECT_TRUE(has_finding(result, "gap"));
        EXPECT_FALSE(has_finding(result, "missing-insufflation") || has_finding(result, "missing-exsufflation"))
            << at_s << '\n'
            << said(result);
        EXPECT_TRUE(result.verdict == Outcome::pass || has_reason(result, "too-few-cycles")) << said(result);
    }
}

TEST_P(Gap, is_made_good_by_more_cycles)
{
    Plan plan;
    plan.cycles.resize(plan.cycles.size() + 3);
    const auto whole = bench(plan);
    const double from_s = first_judged_s(whole.result());
    for (double at_s = 0.0; at_s < 8.0; at_s += 0.37) {
        const auto result = without(whole, from_s + at_s, from_s + at_s + GetParam()).result();
        EXPECT_EQ(result.verdict, Outcome::pass) << at_s << '\n' << said(result);
    }
}

INSTANTIATE_TEST_SUITE_P(Seconds, Gap, testing::Values(0.05, 0.4, 1.5, 3.0, 4.5));

TEST(GapElsewhere, does_not_hide_a_phase_that_the_unit_left_out)
{
    Plan plan;
    plan.cycles[3].exsufflation_s = 0.0;
    const auto whole = bench(plan);
    const double from_s = first_judged_s(whole.result());
    const auto result = without(whole, from_s + 0.5, from_s + 0.9).result();
    EXPECT_EQ(result.verdict, Outcome::fail) << said(result);
    EXPECT_TRUE(has_reason(result, "missing-phase")) << said(result);
}

} // namespace
} // namespace zeroline::verification
