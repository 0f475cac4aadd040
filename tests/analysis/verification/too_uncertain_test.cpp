// Values whose uncertainty is larger than their tolerance, criticals within their uncertainty, and readings that do not
// move (docs/method.md, judgement; docs/diagnosis.md).

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

Plan with_residual(double cmH2O)
{
    Plan plan;
    for (auto& cycle : plan.cycles) {
        cycle.pause_cmH2O = cmH2O;
    }
    return plan;
}

TEST(TooUncertain, a_value_judges_nothing_and_blames_nothing)
{
    auto subject = bench(with_residual(1.5)); // the limit is 1
    subject.instrument.calibration.expanded_uncertainty = 2.4;
    const auto result = subject.result();
    const auto* residual = find(result, measurand::pause_residual);
    EXPECT_EQ(residual->verdict, Outcome::incomplete) << said(result);
    EXPECT_EQ(residual->reason->code, "too-uncertain");
    EXPECT_FALSE(has_finding(result, "residual-pressure")) << said(result);
    EXPECT_TRUE(residual->worst);
}

TEST(TooUncertain, a_value_inside_passes_nothing_either)
{
    auto subject = bench();
    subject.instrument.calibration.expanded_uncertainty = 2.4;
    EXPECT_EQ(find(subject.result(), measurand::pause_residual)->verdict, Outcome::incomplete);
}

TEST(TooUncertain, a_value_outside_by_more_than_its_uncertainty_still_fails)
{
    auto subject = bench(with_residual(4.0));
    subject.instrument.calibration.expanded_uncertainty = 2.4;
    const auto result = subject.result();
    EXPECT_EQ(find(result, measurand::pause_residual)->verdict, Outcome::fail) << said(result);
    EXPECT_TRUE(has_finding(result, "residual-pressure"));
}

TEST(Critical, within_its_uncertainty_is_possible_and_the_unit_is_still_kept_out_of_use)
{
    Plan plan;
    plan.manual = {42.1, -40.0, 40.0, -40.0}; // the limit is 42
    const auto near = bench(plan).result();
    EXPECT_TRUE(has_reason(near, "possible-over-pressure")) << said(near);
    EXPECT_TRUE(near.critical);
    EXPECT_EQ(near.verdict, Outcome::incomplete) << said(near);
    plan.manual[0] = 43.5;
    const auto far = bench(plan).result();
    EXPECT_TRUE(has_reason(far, "over-pressure")) << said(far);
    EXPECT_EQ(far.verdict, Outcome::fail);
}

/// Readings in steps of 0.01 with noise of five steps, one plateau of which stands still.
synthetic::Bench stuck(std::size_t count)
{
    Plan plan;
    plan.noise_cmH2O = 0.05;
    auto subject = bench(plan);
    for (auto& pressure : subject.trace.pressure_cmH2O) {
        pressure = 0.01 * std::round(pressure / 0.01);
    }
    const double from_s = subject.run.spans[2].from_s + 1.0 + 3 * 5.0 + 0.2; // within the fourth insufflation
    auto& time_s = subject.trace.time_s;
    const auto first =
        static_cast<std::size_t>(std::lower_bound(time_s.begin(), time_s.end(), from_s) - time_s.begin());
    for (std::size_t i = 0; i < count; ++i) {
        subject.trace.pressure_cmH2O[first + i] = 33.0;
    }
    return subject;
}

TEST(StuckReading, is_known_by_how_unlikely_it_is_and_not_by_its_length)
{
    const auto result = stuck(225).result(); // 0.9 s
    EXPECT_TRUE(has_finding(result, "stuck-reading")) << said(result);
    EXPECT_EQ(result.verdict, Outcome::pass) << "its cycle is out, enough others remain\n" << said(result);
}

TEST(StuckReading, is_none_where_noise_is_as_likely_to_show_it)
{
    Plan plan;
    plan.noise_cmH2O = 0.002; // a fifth of a step
    auto subject = bench(plan);
    for (auto& pressure : subject.trace.pressure_cmH2O) {
        pressure = 0.01 * std::round(pressure / 0.01);
    }
    const auto result = subject.result();
    EXPECT_FALSE(has_finding(result, "stuck-reading")) << said(result);
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
}

TEST(Gap, that_takes_the_end_of_a_phase_and_its_partner_is_no_plug_that_came_off)
{
    auto subject = bench();
    const double from_s = subject.run.spans[2].from_s + 1.0 + 3 * 5.0 + 0.9; // within the fourth insufflation
    auto& time_s = subject.trace.time_s;
    auto& pressure = subject.trace.pressure_cmH2O;
    const auto first = std::lower_bound(time_s.begin(), time_s.end(), from_s) - time_s.begin();
    const auto last = std::lower_bound(time_s.begin(), time_s.end(), from_s + 2.3) - time_s.begin();
    time_s.erase(time_s.begin() + first, time_s.begin() + last);
    pressure.erase(pressure.begin() + first, pressure.begin() + last);
    const auto result = subject.result();
    EXPECT_TRUE(has_finding(result, "gap"));
    EXPECT_FALSE(has_finding(result, "plug-off")) << said(result);
}

TEST(Response, that_is_not_stated_is_said)
{
    auto subject = bench();
    EXPECT_FALSE(has_reason(subject.result(), "response-not-stated"));
    subject.instrument.response_ms.reset();
    const auto result = subject.result();
    EXPECT_TRUE(has_reason(result, "response-not-stated"));
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
}

TEST(Response, of_100_ms_tells_how_far_a_peak_behind_it_may_have_gone)
{
    // A peak of 44 for 80 ms on a plateau of 40, then a first-order lag of 100 ms, 10 % to 90 %.
    auto subject = bench();
    const double from_s = subject.run.spans[2].from_s + 1.0;
    auto& trace = subject.trace;
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const double into = std::fmod(trace.time_s[i] - from_s, 5.0);
        if (trace.time_s[i] > from_s && trace.time_s[i] < subject.run.spans[2].to_s && into > 0.08 && into < 0.16 &&
            trace.pressure_cmH2O[i] > 39.0) {
            trace.pressure_cmH2O[i] += 4.0;
        }
    }
    const double share = 1.0 - std::exp(-0.004 / 0.0455);
    for (std::size_t i = 1; i < trace.size(); ++i) {
        trace.pressure_cmH2O[i] =
            trace.pressure_cmH2O[i - 1] + share * (trace.pressure_cmH2O[i] - trace.pressure_cmH2O[i - 1]);
    }
    subject.instrument.response_ms = 100.0;
    const auto result = subject.result();
    const auto& cycle = result.cycles[6];
    ASSERT_TRUE(cycle.quantities.count("insufflation-peak")) << said(result);
    const auto& peak = cycle.quantities.at("insufflation-peak");
    EXPECT_LT(peak.value, 43.0);
    EXPECT_GT(peak.value + peak.budget.back().value, 43.5) << peak.value;
    EXPECT_LT(peak.value + peak.budget.back().value, 45.5) << peak.value;
}

} // namespace
} // namespace zeroline::verification
