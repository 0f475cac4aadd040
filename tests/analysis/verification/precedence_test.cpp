// Which rule goes before which, and what a rule leaves alone (docs/method.md, judgement), on runs drawn on paper.

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

const Reason& reason(const Assessment& assessment, const std::string& code)
{
    static const Reason kNone;
    const auto it = std::find_if(assessment.reasons.begin(), assessment.reasons.end(),
                                 [&](const Reason& one) { return one.code == code; });
    return it == assessment.reasons.end() ? kNone : *it;
}

TEST(Steps, evidence_goes_before_a_missing_phase)
{
    Plan plan;
    plan.cycles[3].exsufflation_s = 0.0;
    auto subject = bench(plan);
    subject.run.confirmed = {"no-patient-connected", "outlet-blocked"};
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::incomplete) << said(result);
    EXPECT_EQ(find(result, measurand::exsufflation_pressure)->reason->code, "not-confirmed-trigger-off");
}

TEST(Steps, a_missing_phase_goes_before_a_value_outside)
{
    Plan plan;
    plan.cycles[3].exsufflation_s = 0.0;
    plan.cycles[4].exsufflation_cmH2O = -30.0;
    const auto result = bench(plan).result();
    const auto* pressure = find(result, measurand::exsufflation_pressure);
    EXPECT_EQ(pressure->reason->code, "missing-phase");
    EXPECT_FALSE(pressure->worst);
}

TEST(Steps, a_missing_phase_goes_before_too_few_cycles)
{
    Plan plan;
    plan.cycles.resize(4);
    plan.cycles[2].exsufflation_s = 0.0;
    const auto result = bench(plan).result();
    EXPECT_EQ(find(result, measurand::exsufflation_pressure)->verdict, Outcome::fail);
    EXPECT_EQ(find(result, measurand::insufflation_pressure)->reason->code, "too-few-cycles");
    EXPECT_EQ(result.verdict, Outcome::fail) << "the worst of the judgements";
}

TEST(Ladder, that_misses_a_phase_fails_the_units_accuracy_alone)
{
    Plan plan;
    plan.second_span.assign(4, {});
    plan.second_span[2].exsufflation_s = 0.0;
    auto subject = bench(plan);
    subject.run.spans[3].what = SpanKind::ladder;
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_EQ(result.unit_accuracy, Outcome::fail) << said(result);
    EXPECT_TRUE(has_reason(result, "missing-phase"));
}

TEST(Gap, takes_its_cycle_out_whole_and_enough_others_remain)
{
    auto subject = bench();
    const double from_s = subject.run.spans[2].from_s + 1.0 + 3 * 5.0 + 0.5; // within the fourth insufflation
    auto& time_s = subject.trace.time_s;
    const auto first = std::lower_bound(time_s.begin(), time_s.end(), from_s) - time_s.begin();
    constexpr auto kLost = 20; // 80 ms
    time_s.erase(time_s.begin() + first, time_s.begin() + first + kLost);
    auto& pressure = subject.trace.pressure_cmH2O;
    pressure.erase(pressure.begin() + first, pressure.begin() + first + kLost);
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    for (const auto& name : {measurand::insufflation_pressure, measurand::exsufflation_duration}) {
        EXPECT_EQ(find(result, name)->n, 5) << name << ": of 7, the lead cycle and this one are not judged";
    }
}

TEST(NotTested, names_what_a_closed_hose_end_cannot_show_less_what_the_checklist_did)
{
    auto subject = bench();
    EXPECT_THAT(subject.result().not_tested, testing::Contains("battery-duration"));
    subject.run.checklist = {{"battery duration", ChecklistItem::Outcome::ok, ""},
                             {"alarms", ChecklistItem::Outcome::not_applicable, ""}};
    const auto left = subject.result().not_tested;
    EXPECT_THAT(left, testing::Not(testing::Contains("battery-duration")));
    EXPECT_THAT(left, testing::IsSupersetOf({"alarms", "flow", "strength-under-flow", "electrical-safety"}));
}

TEST(HalfCycle, counts_for_no_other_measurand)
{
    Plan plan;
    plan.cycles[3].exsufflation_s = 0.0;
    plan.cycles[3].insufflation_cmH2O = 20.0;
    const auto result = bench(plan).result();
    EXPECT_EQ(find(result, measurand::insufflation_pressure)->verdict, Outcome::pass) << said(result);
    EXPECT_EQ(find(result, measurand::insufflation_pressure)->n, 5);
    EXPECT_EQ(std::count_if(result.cycles.begin(), result.cycles.end(),
                            [](const Cycle& cycle) { return cycle.why_not_judged == "half"; }),
              1);
}

TEST(ManualCycles, give_levels_and_returns_and_no_durations)
{
    const auto result = bench().result();
    ASSERT_FALSE(result.cycles.empty());
    const auto& manual = result.cycles.front();
    EXPECT_EQ(manual.why_not_judged, "manual");
    EXPECT_TRUE(manual.quantities.count(measurand::insufflation_pressure));
    for (const auto& [name, quantity] : manual.quantities) {
        EXPECT_EQ(name.find("duration"), std::string::npos) << name;
    }
}

TEST(CutPause, at_the_end_of_a_span_is_normal)
{
    Plan plan;
    plan.tail_s = 0.0;
    auto subject = bench(plan);
    subject.run.spans[2].to_s -= 1.0; // within the last pause
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_FALSE(has_finding(result, "cut-phase"));
    const auto& last = result.cycles.back();
    EXPECT_TRUE(last.judged);
    EXPECT_FALSE(last.quantities.count(measurand::pause_duration));
    EXPECT_EQ(find(result, measurand::insufflation_duration)->n, 6);
    EXPECT_EQ(find(result, measurand::pause_duration)->n, 5);
}

TEST(CutPhase, of_the_press_that_ends_a_run_is_normal)
{
    Plan plan;
    plan.tail_s = 0.0;
    plan.cycles.back().exsufflation_s = 0.0;
    plan.cycles.back().pause_s = 0.0;
    auto subject = bench(plan);
    subject.run.spans[2].to_s -= 1.1; // 0.4 s of the last press are seen
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_FALSE(has_finding(result, "cut-phase"));
    EXPECT_EQ(find(result, measurand::pause_duration)->n, 5) << "the last pause is seen whole";
}

TEST(CutPhase, in_which_something_was_lost_is_named)
{
    auto subject = bench();
    subject.run.spans[2].to_s -= 1.0 + 2.0 + 0.7; // within the last exsufflation
    const auto result = subject.result();
    EXPECT_TRUE(has_finding(result, "cut-phase"));
    EXPECT_EQ(result.cycles.back().why_not_judged, "cut");
}

TEST(SettingsDiffer, compares_what_is_delivered_and_never_the_trigger)
{
    auto subject = bench();
    subject.order.presets.front().trigger_on = true;
    subject.run.spans[2].set = Settings{};
    subject.run.spans[2].set->trigger_on = false;
    EXPECT_FALSE(has_finding(subject.result(), "settings-differ"));
    subject.run.spans[2].set->pause_duration = 3.0;
    EXPECT_TRUE(has_finding(subject.result(), "settings-differ"));
}

TEST(OverPressure, without_evidence_still_asks_for_the_unit_to_be_kept_out_of_use)
{
    Plan plan;
    plan.cycles[3].insufflation_cmH2O = 47.0;
    auto subject = bench(plan);
    subject.instrument.calibration.due = "2026-10-01";
    const auto result = subject.result();
    EXPECT_EQ(result.verdict, Outcome::incomplete);
    EXPECT_TRUE(result.critical);
    EXPECT_THAT(reason(result, "possible-over-pressure").text,
                testing::EndsWith("keep this unit out of use until the run is repeated."));
}

TEST(Reasons, name_the_measurand_once)
{
    Plan plan;
    plan.cycles[4].exsufflation_cmH2O = plan.cycles[5].exsufflation_cmH2O = -30.0; // one alone may be excused
    const auto result = bench(plan).result();
    EXPECT_EQ(find(result, measurand::exsufflation_pressure)->reason->text.find("pressure"), std::string::npos);
    EXPECT_EQ(reason(result, "outside-limits").text.rfind("exsufflation-pressure (day): ", 0), 0U) << said(result);
}

TEST(ReturnToZero, has_nothing_prescribed_or_set)
{
    const auto result = bench().result();
    EXPECT_FALSE(find(result, measurand::return_to_zero)->prescribed);
    EXPECT_FALSE(find(result, measurand::return_to_zero)->set);
    EXPECT_EQ(find(result, measurand::return_to_zero)->verdict, Outcome::pass) << said(result);
}

} // namespace
} // namespace zeroline::verification
