// Something soft at the hose end, asked for before the unit is judged (docs/diagnosis.md). What a lung does to the
// pressure at the hose's end is drawn as a jump and a first-order filling behind it: resistance in front of compliance,
// closed form from memory.

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

/// `share` of each step fills with `time_s`, the rest comes at once.
void fill_softly(trace::Trace& trace, double share, double time_s)
{
    const double step = 1.0 - std::exp(-1.0 / (trace.sampling.rate_hz * time_s));
    double filled = 0.0;
    for (auto& pressure : trace.pressure_cmH2O) {
        filled += step * (pressure - filled);
        pressure = (1.0 - share) * pressure + share * filled;
    }
}

/// Every edge becomes a ramp of that length.
void ramp(trace::Trace& trace, double seconds)
{
    const auto span = static_cast<std::size_t>(seconds * trace.sampling.rate_hz);
    const auto sharp = trace.pressure_cmH2O;
    double sum = 0.0;
    for (std::size_t i = 0; i < sharp.size(); ++i) {
        sum += sharp[i] - (i >= span ? sharp[i - span] : 0.0);
        trace.pressure_cmH2O[i] = i + 1 >= span ? sum / static_cast<double>(span) : sharp[i];
    }
}

synthetic::Bench lung(double share = 0.35, double time_s = 0.4, double insufflation_cmH2O = 40.0)
{
    Plan plan;
    for (auto& cycle : plan.cycles) {
        cycle.insufflation_cmH2O = insufflation_cmH2O;
    }
    auto subject = bench(plan);
    fill_softly(subject.trace, share, time_s);
    return subject;
}

TEST(SoftHoseEnd, is_asked_about_before_all_others_and_nothing_is_judged)
{
    const auto result = lung().result();
    ASSERT_FALSE(result.findings.empty());
    EXPECT_EQ(result.findings.front().code, "soft-hose-end") << said(result);
    EXPECT_THAT(result.findings.front().text, testing::StartsWith("Is a person, a bag or a soft tube connected?"));
    EXPECT_EQ(result.verdict, Outcome::incomplete) << said(result);
    EXPECT_EQ(result.unit_accuracy, Outcome::incomplete);
    for (const auto& judgement : result.judgements) {
        EXPECT_NE(judgement.verdict, Outcome::pass) << judgement.measurand;
        EXPECT_FALSE(metrology::is_fail(judgement.verdict)) << judgement.measurand;
    }
    EXPECT_FALSE(result.critical);
}

TEST(SoftHoseEnd, is_seen_from_small_to_large_lungs)
{
    for (const double time_s : {0.2, 0.4, 0.8}) {
        for (const double share : {0.25, 0.5}) {
            const auto result = lung(share, time_s).result();
            EXPECT_TRUE(has_finding(result, "soft-hose-end")) << time_s << ' ' << share << '\n' << said(result);
        }
    }
}

TEST(SoftHoseEnd, blames_no_valve_line_or_filter_of_the_unit_until_somebody_has_looked)
{
    const auto result = lung(1.0, 0.3).result(); // a clogged filter looks the same
    for (const auto* code : {"slow-rise", "slow-swing", "slow-release", "slow-return", "wobble", "residual-pressure"}) {
        EXPECT_FALSE(has_finding(result, code)) << code;
    }
}

TEST(SoftHoseEnd, that_is_answered_becomes_a_note_and_the_unit_is_judged)
{
    auto subject = lung(1.0, 0.3);
    subject.run.hose_end = HoseEndAnswer{true, "operator 3", "2026-11-25T09:14:00+01:00"};
    const auto result = subject.result();
    const auto it = std::find_if(result.findings.begin(), result.findings.end(),
                                 [](const Finding& one) { return one.code == "soft-hose-end"; });
    ASSERT_NE(it, result.findings.end()) << said(result);
    EXPECT_EQ(it->severity, Severity::note);
    EXPECT_TRUE(it->touches.empty());
    EXPECT_THAT(it->text, testing::HasSubstr("operator 3 answered"));
    EXPECT_TRUE(has_finding(result, "slow-rise")) << said(result);
    EXPECT_EQ(result.verdict, Outcome::fail) << "the return is too late\n" << said(result);
    subject.run.hose_end->nothing_soft = false;
    EXPECT_EQ(subject.result().verdict, Outcome::incomplete);
}

TEST(SoftHoseEnd, leaves_a_pressure_above_its_limit_critical_and_the_words_begin_with_the_person)
{
    const auto result = lung(0.35, 0.3, 50.0).result();
    EXPECT_TRUE(has_finding(result, "soft-hose-end")) << said(result);
    EXPECT_TRUE(result.critical) << said(result);
    EXPECT_EQ(result.verdict, Outcome::incomplete);
    for (const auto& reason : result.reasons) {
        if (reason.code == "possible-over-pressure") {
            EXPECT_THAT(reason.text, testing::StartsWith("Is someone connected? Take the hose off the person."));
        }
    }
    for (const auto& finding : result.findings) {
        if (finding.code == "over-pressure") {
            EXPECT_THAT(finding.text, testing::StartsWith("Is someone connected? Take the hose off the person."));
        }
    }
    EXPECT_TRUE(has_reason(result, "possible-over-pressure"));
}

TEST(SoftHoseEnd, is_not_asked_about_where_a_reduced_flow_ramps)
{
    for (const double seconds : {0.2, 0.4, 0.55, 0.7}) {
        auto subject = bench();
        ramp(subject.trace, seconds);
        const auto result = subject.result();
        EXPECT_FALSE(has_finding(result, "soft-hose-end")) << seconds << '\n' << said(result);
    }
}

TEST(SoftHoseEnd, is_not_asked_about_in_a_healthy_run) { EXPECT_FALSE(has_finding(bench().result(), "soft-hose-end")); }

/// Somebody breathes while the unit cycles: 1.5 cmH2O at 0.3 Hz over everything.
synthetic::Bench breathing_through(double pause_s, double frequency_hz = 0.3)
{
    Plan plan;
    plan.cycles.resize(5);
    for (auto& cycle : plan.cycles) {
        cycle.pause_s = pause_s;
    }
    auto subject = bench(plan);
    subject.order.presets.front().pause.duration_s = pause_s;
    for (std::size_t i = 0; i < subject.trace.size(); ++i) {
        const double time_s = subject.trace.time_s[i];
        if (time_s > 6.0 && time_s < subject.run.spans.back().from_s - 0.5) {
            subject.trace.pressure_cmH2O[i] += 1.5 * std::sin(2.0 * std::numbers::pi * frequency_hz * time_s);
        }
    }
    return subject;
}

TEST(BreathAtRest, in_a_run_of_five_cycles_is_no_valve_that_does_not_let_the_hose_go_to_rest)
{
    for (const double pause_s : {1.0, 1.5, 2.0, 2.5, 3.0}) {
        const auto result = breathing_through(pause_s).result();
        EXPECT_TRUE(has_finding(result, "breathing")) << pause_s << '\n' << said(result);
        EXPECT_TRUE(result.critical);
        EXPECT_EQ(result.verdict, Outcome::incomplete) << said(result);
    }
}

TEST(BreathAtRest, that_goes_on_at_the_open_port_is_not_taken_for_its_noise)
{
    auto subject = bench();
    for (std::size_t i = 0; i < subject.trace.size(); ++i) {
        subject.trace.pressure_cmH2O[i] += 1.5 * std::sin(2.0 * std::numbers::pi * 0.3 * subject.trace.time_s[i]);
    }
    const auto result = subject.result();
    EXPECT_TRUE(has_finding(result, "breathing")) << said(result);
    EXPECT_TRUE(result.critical);
}

TEST(BreathAtRest, is_not_lifted_by_an_answer)
{
    auto subject = breathing_through(2.0);
    subject.run.hose_end = HoseEndAnswer{true, "operator 3", "2026-11-25T09:14:00+01:00"};
    EXPECT_TRUE(has_finding(subject.result(), "breathing"));
}

} // namespace
} // namespace zeroline::verification
