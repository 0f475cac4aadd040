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
using testing::DoubleNear;
using testing::Optional;

std::string said(const Assessment& assessment)
{
    std::string out;
    for (const auto& reason : assessment.reasons) {
        out += reason.code + ": " + reason.text + "\n";
    }
    for (const auto& finding : assessment.findings) {
        out += "finding " + finding.code + ": " + finding.text + "\n";
    }
    return out;
}

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
    const auto result = bench(plan).result();
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

// ---- Pauses that are not prescribed -----------------------------------------------------------------------------

TEST(Assessment, with_a_prescribed_pause_of_0_the_pause_is_not_asked_about)
{
    Plan plan;
    for (auto& cycle : plan.cycles) {
        cycle.pause_s = 0.0;
    }
    auto subject = bench(plan);
    subject.order.presets.front().pause.duration_s = 0.0;
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_EQ(find(result, measurand::pause_duration), nullptr);
    EXPECT_EQ(find(result, measurand::pause_residual), nullptr);
    EXPECT_EQ(find(result, measurand::return_to_zero), nullptr);
}

TEST(Assessment, with_a_prescribed_pause_of_0_a_pause_that_is_seen_is_judged_against_0)
{
    auto subject = bench();
    subject.order.presets.front().pause.duration_s = 0.0;
    const auto result = subject.result();
    const auto* pause = find(result, measurand::pause_duration);
    ASSERT_NE(pause, nullptr);
    EXPECT_EQ(pause->verdict, Outcome::fail);
    EXPECT_FALSE(pause->limits.lower);
    EXPECT_EQ(find(result, measurand::pause_residual), nullptr);
}

// ---- Four numbers -----------------------------------------------------------------------------------------------

void set_otherwise(synthetic::Bench& subject, double insufflation_cmH2O)
{
    for (auto& span : subject.run.spans) {
        if (span.what == SpanKind::automatic || span.what == SpanKind::manual) {
            span.set = Settings{};
            span.set->insufflation_pressure = insufflation_cmH2O;
        }
    }
}

TEST(Assessment, a_unit_that_does_what_it_is_set_to_is_accurate_although_the_verdict_is_fail)
{
    Plan plan;
    for (auto& cycle : plan.cycles) {
        cycle.insufflation_cmH2O = 30.0;
    }
    plan.manual = {30.0, -40.0, 30.0, -40.0};
    auto subject = bench(plan);
    subject.run.displayed->front().insufflation_cmH2O = 30.0;
    set_otherwise(subject, 30.0);
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::fail);
    EXPECT_EQ(result.unit_accuracy, Outcome::pass) << said(result);
    EXPECT_TRUE(has_finding(result, "settings-differ"));
    const auto* against_set = find(result, measurand::insufflation_pressure, "set");
    ASSERT_NE(against_set, nullptr);
    EXPECT_THAT(against_set->limits.lower, Optional(28.0));
    EXPECT_EQ(find(result, measurand::exsufflation_pressure, "set"), nullptr) << "set as prescribed";
}

TEST(Assessment, a_unit_set_too_high_is_critical_for_the_verdict_and_accurate_by_itself)
{
    Plan plan;
    for (auto& cycle : plan.cycles) {
        cycle.insufflation_cmH2O = 50.0;
    }
    plan.manual = {50.0, -40.0, 50.0, -40.0};
    auto subject = bench(plan);
    subject.run.displayed->front().insufflation_cmH2O = 50.0;
    set_otherwise(subject, 50.0);
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::fail);
    EXPECT_TRUE(result.critical);
    EXPECT_TRUE(has_reason(result, "over-pressure"));
    EXPECT_EQ(result.unit_accuracy, Outcome::pass) << said(result);
}

TEST(Assessment, a_display_is_judged_against_what_was_measured)
{
    auto subject = bench();
    subject.run.displayed->front().insufflation_cmH2O = 44.0;
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::fail);
    EXPECT_EQ(result.unit_accuracy, Outcome::pass) << "the unit does what it is set to, its display does not say so";
    const auto* display = find(result, measurand::displayed_insufflation, "measured");
    EXPECT_EQ(display->verdict, Outcome::fail);
    EXPECT_THAT(display->worst, Optional(44.0));
    EXPECT_TRUE(has_finding(result, "display-differs"));
}

TEST(Assessment, a_display_that_was_not_read_is_incomplete_except_on_a_home_visit)
{
    auto subject = bench();
    subject.run.displayed = std::vector<Displayed>{{"day", std::nullopt, std::nullopt, Shows::not_read}};
    EXPECT_EQ(subject.result().verdict, Outcome::incomplete);
    EXPECT_TRUE(has_reason(subject.result(), "display-not-read"));
    subject.order.occasion = Occasion::home_visit;
    EXPECT_EQ(subject.result().verdict, Outcome::pass) << said(subject.result());
    EXPECT_THAT(subject.result().not_tested, testing::Contains("displays"));
}

TEST(Assessment, a_log_without_displays_is_judged_without_them_and_says_so)
{
    auto subject = bench();
    subject.run.displayed.reset();
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_EQ(find(result, measurand::displayed_insufflation, "measured"), nullptr);
    EXPECT_THAT(result.not_tested, testing::Contains("displays"));
}

TEST(Assessment, a_display_of_the_setting_is_not_judged)
{
    auto subject = bench();
    subject.run.displayed = std::vector<Displayed>{{"day", 47.0, -40.0, Shows::setting}};
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_EQ(find(result, measurand::displayed_insufflation, "measured")->verdict, Outcome::not_judged);
}

// ---- Critical ---------------------------------------------------------------------------------------------------

TEST(Assessment, over_pressure_is_critical_in_whichever_cycle_it_is_seen)
{
    for (const std::size_t cycle : {std::size_t{0}, std::size_t{3}}) {
        Plan plan;
        plan.cycles[cycle].exsufflation_cmH2O = -46.0;
        const auto result = bench(plan).result();
        EXPECT_EQ(result.verdict, Outcome::fail) << said(result);
        EXPECT_EQ(result.unit_accuracy, Outcome::fail);
        EXPECT_TRUE(result.critical);
        EXPECT_TRUE(has_reason(result, "over-pressure"));
        EXPECT_TRUE(find(result, measurand::exsufflation_pressure)->critical);
    }
}

TEST(Assessment, over_pressure_in_a_manual_cycle_is_critical)
{
    Plan plan;
    plan.manual[2] = 47.0;
    const auto result = bench(plan).result();
    EXPECT_EQ(result.verdict, Outcome::fail) << said(result);
    EXPECT_TRUE(result.critical);
}

TEST(Assessment, over_pressure_without_evidence_is_possible_and_incomplete)
{
    Plan plan;
    plan.cycles[3].insufflation_cmH2O = 47.0;
    auto subject = bench(plan);
    subject.run.confirmed.clear();
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::incomplete);
    EXPECT_TRUE(has_reason(result, "possible-over-pressure"));
    EXPECT_TRUE(result.critical);
}

TEST(Assessment, exsufflation_first_is_critical_and_nothing_is_missing)
{
    Plan plan;
    for (auto& cycle : plan.cycles) {
        cycle.exsufflation_first = true;
    }
    const auto result = bench(plan).result();
    EXPECT_EQ(result.verdict, Outcome::fail);
    EXPECT_EQ(result.unit_accuracy, Outcome::fail);
    EXPECT_TRUE(result.critical);
    EXPECT_TRUE(has_reason(result, "reversed-order"));
    EXPECT_FALSE(has_reason(result, "missing-phase")) << said(result);
    EXPECT_EQ(find(result, measurand::insufflation_pressure)->n, 6);
}

TEST(Assessment, a_manual_phase_of_the_other_sign_is_critical)
{
    Plan plan;
    plan.manual = {40.0, 40.0, 40.0, -40.0};
    const auto result = bench(plan).result();
    EXPECT_EQ(result.verdict, Outcome::fail) << said(result);
    EXPECT_TRUE(has_reason(result, "manual-sign"));
    EXPECT_TRUE(result.critical);
}

TEST(Assessment, signs_that_were_not_asked_for_are_not_judged_and_not_tested)
{
    Plan plan;
    plan.manual = {40.0, 40.0, 40.0, -40.0};
    auto subject = bench(plan);
    subject.run.spans[1].asked.clear();
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_THAT(result.not_tested, testing::Contains("signs"));
}

TEST(Assessment, a_peak_beyond_its_limit_counts_when_it_is_held_longer_than_100_ms)
{
    auto subject = bench();
    subject.order.tolerances.peak_limit_cmH2O = 62.0;
    const auto& span = subject.run.spans[2];
    const auto raise = [&](double seconds) {
        auto raised = subject;
        for (std::size_t i = 0; i < raised.trace.size(); ++i) {
            const double t = raised.trace.time_s[i] - (span.from_s + 1.0 + 2 * 5.0 + 0.3);
            if (t >= 0.0 && t < seconds) {
                raised.trace.pressure_cmH2O[i] = 65.0;
            }
        }
        return raised.result();
    };
    EXPECT_FALSE(has_reason(raise(0.08), "peak-held"));
    const auto held = raise(0.15);
    EXPECT_TRUE(has_reason(held, "peak-held")) << said(held);
    EXPECT_EQ(held.verdict, Outcome::fail);
    EXPECT_EQ(held.unit_accuracy, Outcome::fail);
    EXPECT_TRUE(held.critical);
}

// ---- Ladder -----------------------------------------------------------------------------------------------------

TEST(Assessment, a_ladder_is_judged_against_set_only_and_counts_for_unit_accuracy_alone)
{
    Plan plan;
    plan.second_span.assign(3, {60.0, 1.5, -40.0, 1.5, 0.0, 2.0, false});
    auto subject = bench(plan);
    auto& ladder = subject.run.spans[3];
    ladder.what = SpanKind::ladder;
    ladder.set = Settings{};
    ladder.set->insufflation_pressure = 60.0;
    auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_EQ(result.unit_accuracy, Outcome::pass);
    EXPECT_FALSE(result.critical) << "60 is what it was set to";
    EXPECT_EQ(std::count_if(result.judgements.begin(), result.judgements.end(),
                            [](const Judgement& j) { return j.span.has_value() && j.against == "set"; }),
              7);
    ladder.set->insufflation_pressure = 55.0;
    result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_EQ(result.unit_accuracy, Outcome::fail);
    EXPECT_TRUE(result.critical);
}

// ---- Checklist, hand-back, house figures ------------------------------------------------------------------------

TEST(Assessment, a_checklist_item_that_is_not_ok_fails)
{
    auto subject = bench();
    subject.run.checklist = {{"intake filter", ChecklistItem::Outcome::not_ok, "torn"}};
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::fail);
    EXPECT_EQ(result.unit_accuracy, Outcome::pass);
    EXPECT_TRUE(has_reason(result, "checklist"));
}

TEST(Assessment, a_unit_not_given_back_as_it_must_be_is_never_better_than_incomplete)
{
    auto subject = bench();
    subject.run.restored = false;
    EXPECT_EQ(subject.result().verdict, Outcome::incomplete);
    subject.run.restored.reset();
    EXPECT_EQ(subject.result().verdict, Outcome::pass) << said(subject.result());
    EXPECT_THAT(subject.result().not_tested, testing::Contains("hand-back"));
}

TEST(Assessment, settings_left_otherwise_than_found_and_prescribed_are_incomplete)
{
    auto subject = bench();
    Settings found;
    found.trigger_on = true;
    Settings left = found;
    left.trigger_on = false;
    subject.run.settings_found = {{"day", found}};
    subject.run.settings_left = {{"day", left}};
    EXPECT_EQ(subject.result().verdict, Outcome::incomplete);
    EXPECT_TRUE(has_reason(subject.result(), "left-otherwise"));
    subject.run.settings_left = {{"day", found}};
    EXPECT_EQ(subject.result().verdict, Outcome::pass) << said(subject.result());
}

TEST(Assessment, a_house_figure_is_named_with_its_label_and_a_given_one_with_its_basis)
{
    auto subject = bench();
    subject.order.tolerances.residual.reset();
    const auto result = subject.result();
    EXPECT_TRUE(has_reason(result, "house-tolerance"));
    EXPECT_EQ(find(result, measurand::pause_residual)->basis, "house default, no published source, not approved");
    EXPECT_EQ(find(result, measurand::insufflation_pressure)->basis, "paper manual");
}

TEST(Assessment, a_tolerance_that_is_not_much_wider_than_the_uncertainty_gets_a_caution_and_no_verdict_of_its_own)
{
    auto subject = bench();
    subject.order.tolerances.pressure->absolute = 0.6;
    const auto result = subject.result();
    EXPECT_TRUE(has_reason(result, "low-ratio"));
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
}

TEST(Assessment, a_mid_level_definition_judges_the_mid_level_duration)
{
    auto subject = bench();
    subject.order.tolerances.duration->mid_level = true;
    const auto result = subject.result();
    const auto* duration = find(result, measurand::insufflation_duration);
    const auto& cycle = result.cycles[static_cast<std::size_t>(*duration->worst_cycle) - 1];
    EXPECT_EQ(*duration->worst, cycle.quantities.at("insufflation-duration-mid-level").value);
    EXPECT_NE(*duration->worst, cycle.quantities.at("insufflation-duration").value);
}

TEST(Assessment, two_presets_are_judged_each_against_its_own_prescription_however_far_apart)
{
    Plan plan;
    plan.second_span.assign(7, {8.0, 1.5, -8.0, 1.5, 0.0, 2.0, false});
    auto subject = bench(plan);
    subject.order.presets.push_back(subject.order.presets.front());
    auto& gentle = subject.order.presets.back();
    gentle.name = "gentle";
    gentle.insufflation.pressure_cmH2O = 8.0;
    gentle.exsufflation.pressure_cmH2O = -8.0;
    subject.run.spans[3].preset = "gentle";
    subject.run.displayed->push_back({"gentle", 8.0, -8.0, Shows::live});
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
}

} // namespace
} // namespace zeroline::verification
