// The four numbers, what is critical, the ladder and the hand-back, on runs drawn on paper (synthetic.hpp).

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

TEST(Assessment, over_pressure_by_hand_fails_although_the_run_was_stopped_before_it_cycled)
{
    Plan plan;
    plan.manual[2] = 47.0;
    auto subject = bench(plan);
    std::erase_if(subject.run.spans, [](const Span& span) { return span.what == SpanKind::automatic; });
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::fail) << said(result);
    EXPECT_TRUE(has_reason(result, "over-pressure"));
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

TEST(Assessment, a_step_left_out_is_named_with_its_reason_and_the_verdict_follows_from_what_was_not_seen)
{
    auto without_holds = bench();
    without_holds.run.spans.erase(without_holds.run.spans.begin() + 1);
    without_holds.run.skipped = {{SpanKind::manual, "day", "the unit has no manual mode"}};
    const auto result = without_holds.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_THAT(result.not_tested, testing::IsSupersetOf({"signs", "manual-holds"}));
    EXPECT_TRUE(has_reason(result, "skipped"));
    EXPECT_NE(said(result).find("the unit has no manual mode"), std::string::npos) << said(result);

    auto without_cycles = bench();
    without_cycles.run.spans.erase(without_cycles.run.spans.begin() + 2);
    without_cycles.run.skipped = {{SpanKind::automatic, "day", "no time"}};
    EXPECT_EQ(without_cycles.result().verdict, Outcome::incomplete);
    EXPECT_THAT(without_cycles.result().not_tested, testing::Contains("automatic-cycles"));
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
                raised.trace.pressure_cmH2O[i] += 25.0; // with its noise: a reading that stands still is none
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

TEST(Assessment, a_phase_that_the_end_of_the_trace_cuts_is_not_taken_for_over_pressure)
{
    auto subject = bench();
    // The trace ends in an exsufflation that has only overshot so far.
    auto& span = subject.run.spans[2];
    const double end_s = span.from_s + 1.0 + 4 * 5.0 + 1.5 + 0.3;
    for (std::size_t i = 0; i < subject.trace.size(); ++i) {
        const double t = subject.trace.time_s[i];
        if (t > end_s - 0.2 && t <= end_s) {
            subject.trace.pressure_cmH2O[i] -= 4.0;
        }
    }
    span.to_s = end_s;
    const auto result = subject.result();
    EXPECT_FALSE(result.critical) << said(result);
    EXPECT_EQ(result.cycles.back().why_not_judged, "cut");
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
