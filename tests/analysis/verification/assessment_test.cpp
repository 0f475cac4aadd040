// Every rule of docs/method.md, judgement, on runs drawn on paper (synthetic.hpp).

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
using testing::DoubleNear;
using testing::Optional;

TEST(Assessment, a_healthy_unit_with_all_evidence_passes)
{
    const auto result = bench().result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_EQ(result.unit_accuracy, Outcome::pass);
    EXPECT_FALSE(result.critical);
    const auto* pressure = find(result, measurand::insufflation_pressure);
    ASSERT_NE(pressure, nullptr);
    EXPECT_EQ(pressure->n, 6);
    EXPECT_THAT(pressure->mean, Optional(DoubleNear(40.0, 0.02)));
    EXPECT_THAT(find(result, measurand::exsufflation_duration)->mean, Optional(DoubleNear(1.5, 0.005)));
    EXPECT_THAT(find(result, measurand::pause_duration)->mean, Optional(DoubleNear(2.0, 0.005)));
}

// ---- Step 1: what keeps a judgement from being made -------------------------------------------------------------

struct Lack {
    const char* name;
    void (*take_away)(synthetic::Bench&);
    const char* code;
};

class Evidence_that_is_missing : public testing::TestWithParam<Lack> {};

TEST_P(Evidence_that_is_missing, makes_every_judgement_incomplete_and_still_shows_values)
{
    auto subject = bench();
    GetParam().take_away(subject);
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::incomplete) << said(result);
    EXPECT_EQ(result.unit_accuracy, Outcome::incomplete);
    EXPECT_TRUE(has_reason(result, GetParam().code)) << said(result);
    const auto* pressure = find(result, measurand::insufflation_pressure);
    ASSERT_NE(pressure, nullptr);
    EXPECT_EQ(pressure->verdict, Outcome::incomplete);
    EXPECT_EQ(pressure->reason->code, GetParam().code);
    EXPECT_TRUE(pressure->worst && pressure->mean && pressure->limits.lower);
}

void remove_spans(synthetic::Bench& subject, SpanKind kind)
{
    auto& spans = subject.run.spans;
    spans.erase(std::remove_if(spans.begin(), spans.end(), [&](const Span& span) { return span.what == kind; }),
                spans.end());
}

void unconfirm(synthetic::Bench& subject, const std::string& what)
{
    auto& confirmed = subject.run.confirmed;
    confirmed.erase(std::remove(confirmed.begin(), confirmed.end(), what), confirmed.end());
}

INSTANTIATE_TEST_SUITE_P(
    Each, Evidence_that_is_missing,
    testing::Values(
        Lack{"run_log", [](synthetic::Bench& b) { b.with_run = false; }, "no-run-log"},
        Lack{"instrument", [](synthetic::Bench& b) { b.with_instrument = false; }, "no-instrument"},
        Lack{"date", [](synthetic::Bench& b) { b.run.began.clear(); }, "no-date"},
        Lack{"calibration_lapsed_the_day_before",
             [](synthetic::Bench& b) { b.instrument.calibration.due = "2026-11-24"; }, "calibration-lapsed"},
        Lack{"calibration_done_later", [](synthetic::Bench& b) { b.instrument.calibration.on = "2026-11-26"; },
             "calibration-later"},
        Lack{"zero_before", [](synthetic::Bench& b) { remove_spans(b, SpanKind::zero_before); }, "no-zero-before"},
        Lack{"zero_long_enough",
             [](synthetic::Bench& b) { b.run.spans.front().to_s = b.run.spans.front().from_s + 2.5; },
             "no-zero-before"},
        Lack{"outlet_blocked", [](synthetic::Bench& b) { unconfirm(b, "outlet-blocked"); },
             "not-confirmed-outlet-blocked"},
        Lack{"no_patient", [](synthetic::Bench& b) { unconfirm(b, "no-patient-connected"); },
             "not-confirmed-no-patient-connected"},
        Lack{"trigger_off", [](synthetic::Bench& b) { unconfirm(b, "trigger-off"); }, "not-confirmed-trigger-off"}),
    [](const auto& tested) { return std::string(tested.param.name); });

TEST(Assessment, the_calibration_is_valid_to_the_end_of_its_due_day)
{
    auto subject = bench();
    subject.instrument.calibration.due = "2026-11-25";
    EXPECT_EQ(subject.result().verdict, Outcome::pass);
}

TEST(Assessment, a_preset_without_an_automatic_span_is_incomplete)
{
    auto subject = bench();
    subject.order.presets.push_back(subject.order.presets.front());
    subject.order.presets.back().name = "infection";
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::incomplete);
    EXPECT_TRUE(has_reason(result, "no-automatic-span"));
}

TEST(Assessment, incomplete_evidence_never_fails_a_unit_that_is_far_off)
{
    Plan plan;
    for (auto& cycle : plan.cycles) {
        cycle.insufflation_cmH2O = 30.0;
    }
    auto subject = bench(plan);
    EXPECT_EQ(subject.result().verdict, Outcome::fail);
    subject.with_run = false;
    EXPECT_EQ(subject.result().verdict, Outcome::incomplete);
}

TEST(Assessment, without_a_zero_after_it_still_passes_and_says_what_was_assumed)
{
    auto subject = bench();
    remove_spans(subject, SpanKind::zero_after);
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_TRUE(has_reason(result, "no-zero-after"));
    EXPECT_FALSE(result.zero.after || result.zero.drift);
}

TEST(Assessment, a_zero_beyond_its_limit_stops_pressures_and_no_durations)
{
    Plan plan;
    plan.zero_before_cmH2O = plan.zero_after_cmH2O = 0.9;
    const auto result = bench(plan).result();
    EXPECT_EQ(result.verdict, Outcome::incomplete);
    EXPECT_EQ(find(result, measurand::insufflation_pressure)->verdict, Outcome::incomplete);
    EXPECT_EQ(find(result, measurand::insufflation_duration)->verdict, Outcome::pass) << said(result);
}

TEST(Assessment, a_zero_that_drifted_beyond_its_limit_is_incomplete)
{
    Plan plan;
    plan.zero_after_cmH2O = 0.9;
    const auto result = bench(plan).result();
    EXPECT_EQ(result.verdict, Outcome::incomplete);
    EXPECT_TRUE(has_finding(result, "zero-drift"));
}

class Sampling_rate : public testing::TestWithParam<std::pair<double, std::vector<std::string>>> {};

TEST_P(Sampling_rate, allows_figures_down_to_its_threshold)
{
    Plan plan;
    plan.rate_hz = GetParam().first;
    const auto result = bench(plan).result();
    const auto& stopped = GetParam().second;
    for (const auto& name : {measurand::insufflation_pressure, measurand::insufflation_duration}) {
        const bool stops = std::find(stopped.begin(), stopped.end(), name) != stopped.end();
        EXPECT_EQ(find(result, name)->verdict == Outcome::incomplete, stops) << name << "\n" << said(result);
    }
}

INSTANTIATE_TEST_SUITE_P(Thresholds, Sampling_rate,
                         testing::Values(std::pair<double, std::vector<std::string>>{98.0, {}},
                                         std::pair<double, std::vector<std::string>>{49.0, {}},
                                         std::pair<double, std::vector<std::string>>{48.0, {"insufflation-duration"}},
                                         std::pair<double, std::vector<std::string>>{20.0, {"insufflation-duration"}},
                                         std::pair<double, std::vector<std::string>>{
                                             19.0, {"insufflation-duration", "insufflation-pressure"}}));

// ---- Step 2: a phase that did not come --------------------------------------------------------------------------

TEST(Assessment, a_missing_exsufflation_fails_with_no_worst_value)
{
    Plan plan;
    plan.cycles[3].exsufflation_s = 0.0;
    const auto result = bench(plan).result();
    EXPECT_EQ(result.verdict, Outcome::fail);
    const auto* pressure = find(result, measurand::exsufflation_pressure);
    EXPECT_EQ(pressure->verdict, Outcome::fail);
    EXPECT_EQ(pressure->reason->code, "missing-phase");
    EXPECT_FALSE(pressure->worst);
    EXPECT_TRUE(pressure->mean);
    EXPECT_EQ(find(result, measurand::exsufflation_duration)->reason->code, "missing-phase");
    EXPECT_EQ(find(result, measurand::insufflation_pressure)->verdict, Outcome::pass) << said(result);
    EXPECT_TRUE(has_finding(result, "missing-exsufflation"));
}

TEST(Assessment, a_missing_insufflation_fails_the_insufflation)
{
    Plan plan;
    plan.cycles[3].insufflation_s = 0.0;
    const auto result = bench(plan).result();
    EXPECT_EQ(find(result, measurand::insufflation_pressure)->reason->code, "missing-phase");
    EXPECT_EQ(find(result, measurand::exsufflation_pressure)->verdict, Outcome::pass) << said(result);
}

TEST(Assessment, a_phase_missing_in_a_lead_cycle_is_a_finding_only)
{
    Plan plan;
    plan.cycles[0].exsufflation_s = 0.0;
    const auto result = bench(plan).result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_TRUE(has_finding(result, "missing-exsufflation"));
}

TEST(Assessment, a_pause_that_did_not_come_fails_the_pause)
{
    Plan plan;
    plan.cycles[3].pause_s = 0.0;
    const auto result = bench(plan).result();
    EXPECT_EQ(result.verdict, Outcome::fail);
    EXPECT_EQ(find(result, measurand::pause_duration)->reason->code, "missing-phase");
}

TEST(Assessment, a_phase_lost_in_a_gap_is_not_missing)
{
    auto subject = bench();
    // The second half of the fourth cycle and the beginning of the fifth are not there.
    const auto& span = subject.run.spans[2];
    const double from = span.from_s + 1.0 + 3 * 5.0 + 1.2;
    trace::Trace kept = subject.trace;
    kept.time_s.clear();
    kept.pressure_cmH2O.clear();
    for (std::size_t i = 0; i < subject.trace.size(); ++i) {
        if (subject.trace.time_s[i] < from || subject.trace.time_s[i] > from + 2.0) {
            kept.time_s.push_back(subject.trace.time_s[i]);
            kept.pressure_cmH2O.push_back(subject.trace.pressure_cmH2O[i]);
        }
    }
    subject.trace = kept;
    const auto result = subject.result();
    EXPECT_NE(result.verdict, Outcome::fail) << said(result);
    EXPECT_TRUE(has_finding(result, "gap"));
    EXPECT_TRUE(std::any_of(result.cycles.begin(), result.cycles.end(),
                            [](const Cycle& cycle) { return cycle.why_not_judged == "gap"; }));
}

// ---- Step 3: one value outside ----------------------------------------------------------------------------------

TEST(Assessment, one_judged_cycle_outside_fails_however_good_the_others_are)
{
    Plan plan;
    plan.cycles[4].insufflation_cmH2O = 37.5;
    auto subject = bench(plan);
    subject.run.unlike_in_attempt = 1; // one unlike cycle is excused once for a work order: unlike_cycle_test.cpp
    const auto result = subject.result();
    const auto* pressure = find(result, measurand::insufflation_pressure);
    EXPECT_EQ(result.verdict, Outcome::fail);
    EXPECT_EQ(pressure->verdict, Outcome::fail);
    EXPECT_EQ(pressure->reason->code, "outside-limits");
    EXPECT_THAT(pressure->worst, Optional(DoubleNear(37.5, 0.05)));
    EXPECT_FALSE(result.critical) << "towards zero is no danger by itself";
}

TEST(Assessment, one_value_outside_fails_even_where_too_few_cycles_were_run)
{
    Plan plan;
    plan.cycles.resize(3);
    plan.cycles[2].insufflation_cmH2O = 37.0;
    EXPECT_EQ(bench(plan).result().verdict, Outcome::fail);
}

TEST(Assessment, the_worst_is_the_one_nearest_to_a_limit_not_the_one_farthest_from_the_nominal)
{
    Plan plan;
    plan.cycles[2].insufflation_cmH2O = 39.2;
    plan.cycles[3].insufflation_cmH2O = 43.0;
    auto subject = bench(plan);
    Tolerance tolerance;
    tolerance.lower = 1.0;
    tolerance.upper = 5.0;
    tolerance.basis = "paper";
    subject.order.tolerances.insufflation_pressure = tolerance;
    const auto result = subject.result();
    const auto* pressure = find(result, measurand::insufflation_pressure);
    EXPECT_THAT(pressure->worst, Optional(DoubleNear(39.2, 0.05)));
    EXPECT_EQ(pressure->verdict, Outcome::pass) << said(result);
}

TEST(Assessment, a_pressure_that_never_came_back_fails_where_a_time_is_given)
{
    Plan plan;
    for (auto& cycle : plan.cycles) {
        cycle.pause_cmH2O = -2.5;
    }
    auto subject = bench(plan);
    const auto* back = [](const Assessment& a) { return find(a, measurand::return_to_zero); }(subject.result());
    (void)back;
    const auto result = subject.result();
    EXPECT_EQ(find(result, measurand::return_to_zero)->verdict, Outcome::fail) << said(result);
    EXPECT_EQ(find(result, measurand::return_to_zero)->reason->code, "not-returned");
    EXPECT_FALSE(find(result, measurand::return_to_zero)->worst);
    EXPECT_EQ(find(result, measurand::pause_residual)->verdict, Outcome::fail);
    subject.order.tolerances.zero->within_s.reset();
    EXPECT_EQ(find(subject.result(), measurand::return_to_zero)->verdict, Outcome::not_judged);
}

// ---- Step 4 and 5 -----------------------------------------------------------------------------------------------

TEST(Assessment, fewer_judged_cycles_than_needed_are_incomplete)
{
    Plan plan;
    plan.cycles.resize(5); // one leads
    const auto result = bench(plan).result();
    EXPECT_EQ(result.verdict, Outcome::incomplete);
    EXPECT_EQ(find(result, measurand::insufflation_pressure)->reason->code, "too-few-cycles");
    EXPECT_EQ(find(result, measurand::insufflation_pressure)->n, 4);
}

TEST(Assessment, the_pause_needs_one_cycle_fewer_for_each_end_of_a_span)
{
    Plan plan;
    plan.cycles.resize(6);
    plan.cycles.back().pause_s = 0.0; // the span ends in its pause
    const auto result = bench(plan).result();
    EXPECT_EQ(find(result, measurand::pause_duration)->n, 4);
    EXPECT_EQ(find(result, measurand::pause_duration)->verdict, Outcome::pass) << said(result);
    EXPECT_EQ(result.verdict, Outcome::pass);
}

TEST(Assessment, the_cycles_of_several_automatic_spans_add_up_and_each_has_its_own_lead)
{
    Plan plan;
    plan.cycles.resize(4);
    plan.second_span.resize(4);
    const auto result = bench(plan).result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_EQ(find(result, measurand::insufflation_pressure)->n, 6);
    EXPECT_EQ(std::count_if(result.cycles.begin(), result.cycles.end(),
                            [](const Cycle& cycle) { return cycle.why_not_judged == "lead"; }),
              2);
}

TEST(Assessment, a_first_cycle_that_is_low_is_shown_and_not_judged)
{
    Plan plan;
    plan.cycles[0].insufflation_cmH2O = 34.0;
    EXPECT_EQ(bench(plan).result().verdict, Outcome::pass);
    auto subject = bench(plan);
    subject.order.lead_cycles = 0;
    EXPECT_EQ(subject.result().verdict, Outcome::fail);
}

TEST(Assessment, a_rest_of_the_series_is_not_judged_and_the_cycle_after_it_is)
{
    Plan plan;
    plan.cycles.resize(9);
    plan.cycles[3].pause_s = 9.0;
    plan.cycles[7].pause_s = 9.0;
    auto subject = bench(plan);
    subject.order.presets.front().series = Series{4, 2, 9.0};
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_TRUE(result.cycles[11 - 4].judged);
    subject.order.presets.front().series = Series{5, 2, 9.0};
    EXPECT_EQ(find(subject.result(), measurand::pause_duration)->verdict, Outcome::fail)
        << "a pause that does not follow the fifth cycle is no rest";
}

TEST(Assessment, guarded_acceptance_parts_pass_conditional_pass_conditional_fail_and_fail)
{
    const auto verdict_at = [](double level) {
        Plan plan;
        for (auto& cycle : plan.cycles) {
            cycle.insufflation_cmH2O = level;
        }
        auto subject = bench(plan);
        subject.order.decision_rule = metrology::Rule::guarded;
        return find(subject.result(), measurand::insufflation_pressure)->verdict;
    };
    EXPECT_EQ(verdict_at(40.0), Outcome::pass);
    EXPECT_EQ(verdict_at(38.15), Outcome::conditional_pass);
    EXPECT_EQ(verdict_at(37.85), Outcome::conditional_fail);
    EXPECT_EQ(verdict_at(37.0), Outcome::fail);
}

} // namespace
} // namespace zeroline::verification
