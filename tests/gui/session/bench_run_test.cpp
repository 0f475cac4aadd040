#include "tests/gui/session/bench_run_fixture.hpp"

#include <gmock/gmock.h>

namespace zeroline::session {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;

TEST_F(BenchRunTest, begins_with_words_that_only_a_person_can_give)
{
    EXPECT_EQ(run_->view().step, StepKind::confirm);
    EXPECT_THAT(run_->view().sentence, HasSubstr("off the person"));
    run_->confirm();
    EXPECT_THAT(run_->log().confirmed, ElementsAre("no-patient-connected"));
    run_->confirm();
    EXPECT_THAT(run_->log().confirmed, ElementsAre("no-patient-connected", "trigger-off"));
}

TEST_F(BenchRunTest, a_question_waits_as_long_as_a_person_needs)
{
    wait(1000.0);
    EXPECT_EQ(run_->view().step, StepKind::confirm);
    EXPECT_FALSE(run_->ended());
}

TEST_F(BenchRunTest, zero_is_read_from_five_quiet_seconds)
{
    to_zero();
    EXPECT_EQ(run_->view().step, StepKind::zero_before);
    EXPECT_FALSE(run_->view().can_confirm);
    pressure_.hold(0.0, 6.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::plug);
    ASSERT_THAT(spans(), ElementsAre(SpanKind::zero_before));
    const auto span = run_->log().spans.front();
    EXPECT_GE(span.to_s - span.from_s, 4.99);
}

TEST_F(BenchRunTest, a_zero_off_its_limit_is_told_at_the_step_where_it_can_be_mended)
{
    to_zero();
    pressure_.hold(1.2, 7.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::zero_before);
    EXPECT_THAT(run_->view().sentence, HasSubstr("Zero reads +1.19 cmH2O, the limit is 0.50"));
    EXPECT_TRUE(run_->view().can_confirm);
    EXPECT_TRUE(run_->view().can_go_on);
    wait(500.0);
    EXPECT_FALSE(run_->ended()) << "it waits for the person";
    run_->confirm();
    pressure_.hold(0.0, 7.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::plug) << "mended and read again";
}

TEST_F(BenchRunTest, a_zero_off_its_limit_can_be_taken_as_it_is)
{
    to_zero();
    pressure_.hold(1.2, 7.0);
    play();
    run_->go_on();
    EXPECT_EQ(run_->view().step, StepKind::plug);
    EXPECT_THAT(spans(), ElementsAre(SpanKind::zero_before));
}

TEST_F(BenchRunTest, the_plug_is_seen_by_the_pressure_and_needs_no_word)
{
    to_manual();
    EXPECT_FALSE(run_->view().can_confirm);
    pressure_.hold(0.0, 2.0).hold(40.0, 1.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::manual);
    EXPECT_THAT(run_->log().confirmed, Contains("outlet-blocked"));
}

TEST_F(BenchRunTest, a_bump_while_the_plug_goes_in_is_no_pressure)
{
    to_manual();
    pressure_.hold(0.6, 0.5).hold(0.0, 2.0).hold(-0.8, 0.4).hold(0.0, 3.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::plug);
}

TEST_F(BenchRunTest, toggles_in_a_far_larger_unit_are_recognised_all_the_same)
{
    to_manual();
    pressure_.hold(0.0, 1.0).toggles(0.57, -0.57).toggles(0.57, -0.57).toggles(0.57, -0.57);
    play();
    EXPECT_NE(run_->view().step, StepKind::plug);
}

TEST_F(BenchRunTest, manual_phases_are_asked_one_by_one_and_seen_by_the_pressure)
{
    to_manual();
    pressure_.hold(0.0, 2.0).hold(40.0, 1.0);
    play();
    EXPECT_THAT(run_->view().sentence, HasSubstr("Hold insufflation"));
    EXPECT_EQ(run_->view().deed, Deed::insufflate);
    pressure_.hold(40.0, 2.0).hold(0.0, 1.0);
    play();
    EXPECT_THAT(run_->view().sentence, HasSubstr("Hold exsufflation"));
    EXPECT_EQ(run_->view().deed, Deed::exsufflate);
    EXPECT_EQ(run_->view().holds, 1u);
    pressure_.hold(-40.0, 2.0).hold(0.0, 1.0).hold(40.0, 2.0).hold(0.0, 1.0);
    play();
    EXPECT_THAT(run_->view().sentence, HasSubstr("Hold exsufflation"));
    pressure_.hold(-40.0, 2.0).hold(0.0, 2.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::automatic);
    ASSERT_THAT(spans(), ElementsAre(SpanKind::zero_before, SpanKind::manual));
    EXPECT_EQ(run_->log().spans.back().asked.size(), 4u);
}

TEST_F(BenchRunTest, a_hold_is_counted_to_its_end_and_then_the_hand_is_told_to_let_go)
{
    to_manual();
    pressure_.hold(0.0, 2.0).hold(40.0, 2.0);
    play();
    ASSERT_TRUE(run_->view().held_s);
    EXPECT_NEAR(*run_->view().held_s, 1.8, 0.4);
    EXPECT_NEAR(*run_->view().progress, 0.25 * *run_->view().held_s / kHold_s, 1e-6);
    EXPECT_THAT(run_->view().sentence, HasSubstr("Hold insufflation"));
    pressure_.hold(40.0, 1.6);
    play();
    EXPECT_THAT(run_->view().sentence, HasSubstr("Let go"));
    pressure_.hold(0.0, 1.0).hold(40.0, 2.0);
    play();
    EXPECT_FALSE(run_->view().held_s) << "it is not the phase that is asked for";
    EXPECT_THAT(run_->view().sentence, HasSubstr("Hold exsufflation"));
}

TEST_F(BenchRunTest, holds_that_are_not_the_ones_asked_for_are_asked_once_more_and_set_aside)
{
    to_manual();
    pressure_.hold(0.0, 2.0).toggles(40.0, 40.0).toggles(40.0, -40.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::manual);
    EXPECT_THAT(news(), HasSubstr("once more"));
    const auto aside = run_->log().spans[1];
    EXPECT_EQ(aside.what, SpanKind::other);
    EXPECT_TRUE(aside.preset.empty()) << "a run log may name a preset in judged spans only";
    pressure_.toggles(40.0, -40.0).toggles(40.0, -40.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::automatic);
}

TEST_F(BenchRunTest, both_signs_the_other_way_round_are_not_taken_for_a_slip_of_the_hand)
{
    to_manual();
    judge_.critical = true;
    judge_.finding = "swapped-ports";
    pressure_.hold(0.0, 2.0).toggles(-40.0, 40.0).toggles(-40.0, 40.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::hand_back);
    run_->confirm();
    EXPECT_EQ(run_->ending(), Ending::critical);
}

TEST_F(BenchRunTest, automatic_runs_until_enough_cycles_are_judged_and_the_last_pause_is_over)
{
    to_automatic();
    pressure_.hold(0.0, 2.0).cycles(4, 40.0, -40.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::automatic);
    judge_.judged = 3;
    pressure_.cycles(2, 40.0, -40.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::confirm);
    EXPECT_EQ(run_->view().place, "Zero again");
    EXPECT_EQ(spans().back(), SpanKind::automatic);
}

TEST_F(BenchRunTest, cycles_are_told_by_the_numbers_that_stand_above_the_trace)
{
    to_automatic();
    static_cast<void>(news());
    judge_.not_judged = 1;
    judge_.cycles_before = 2;
    pressure_.hold(0.0, 2.0).cycles(1, 40.0, -40.0);
    play();
    EXPECT_THAT(news(), testing::HasSubstr("cycle 3; judged: 0 of 3"));
    judge_.judged = 2;
    pressure_.cycles(2, 40.0, -40.0);
    play();
    EXPECT_THAT(news(), testing::HasSubstr("cycle 5; judged: 2 of 3"));
}

TEST_F(BenchRunTest, a_unit_that_stops_at_the_last_cycle_needs_no_further_one)
{
    to_automatic();
    pressure_.hold(0.0, 2.0).cycles(4, 40.0, -40.0).hold(0.0, 1.0);
    judge_.judged = 3;
    play();
    pressure_.hold(0.0, 3.0);
    play();
    EXPECT_EQ(run_->view().place, "Zero again");
}

TEST_F(BenchRunTest, a_unit_that_leaves_phases_out_is_not_waited_for_for_ever)
{
    // Every insufflation is seen as half a cycle, none is ever judged.
    int looks = 0;
    RunSettings settings;
    run_.emplace(order_, settings, [&looks](const verification::RunLog& log) {
        verification::Assessment assessment;
        const bool cycling = log.spans.back().what == SpanKind::automatic;
        looks += cycling ? 1 : 0;
        for (int i = 0; cycling && i < looks / 2; ++i) {
            verification::Cycle cycle;
            cycle.preset = "day";
            cycle.span = log.spans.size() - 1;
            assessment.cycles.push_back(cycle);
        }
        return assessment;
    });
    to_automatic();
    pressure_.hold(0.0, 2.0);
    for (int i = 0; i < 14; ++i) {
        pressure_.hold(40.0, 0.5).hold(0.0, 1.0);
    }
    play();
    EXPECT_EQ(run_->view().place, "Zero again");
}

} // namespace zeroline::session
