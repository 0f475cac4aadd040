#include "tests/gui/session/bench_run_fixture.hpp"

#include <gmock/gmock.h>

namespace zeroline::session {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;
using testing::SizeIs;
using testing::StartsWith;

TEST_F(BenchRunTest, cycling_that_stops_too_early_is_told_and_waited_for)
{
    to_automatic();
    judge_.judged = 1;
    pressure_.hold(0.0, 2.0).cycles(2, 40.0, -40.0).hold(0.0, 15.0);
    play();
    EXPECT_THAT(news(), HasSubstr("Cycling has stopped"));
    EXPECT_TRUE(run_->view().can_go_on);
    judge_.judged = 3;
    pressure_.cycles(4, 40.0, -40.0);
    play();
    EXPECT_EQ(run_->view().place, "Zero again");
    const auto kinds = spans();
    EXPECT_EQ(std::count(kinds.begin(), kinds.end(), SpanKind::automatic), 2);
}

TEST_F(BenchRunTest, what_was_seen_is_judged_although_no_further_cycle_comes)
{
    to_automatic();
    judge_.judged = 1;
    pressure_.hold(0.0, 2.0).cycles(2, 40.0, -40.0).hold(0.0, 15.0);
    play();
    wait(40.0);
    EXPECT_EQ(run_->view().place, "Zero again");
}

TEST_F(BenchRunTest, no_cycle_at_all_ends_the_run_incomplete_by_way_of_the_hand_back)
{
    to_automatic();
    wait(40.0);
    EXPECT_EQ(run_->view().step, StepKind::hand_back);
    run_->confirm();
    EXPECT_TRUE(run_->ended());
    EXPECT_EQ(run_->ending(), Ending::out_of_time);
}

TEST_F(BenchRunTest, a_step_that_waits_long_says_what_to_check)
{
    to_manual();
    wait(13.0);
    EXPECT_THAT(run_->view().check, HasSubstr("sensing line"));
}

TEST_F(BenchRunTest, a_unit_rests_when_its_duty_is_over_and_the_cycles_add_up_over_two_spans)
{
    RunSettings settings;
    settings.wait_s = 30.0;
    settings.duty = {10.0, 5.0};
    run_.emplace(order_, settings, [this](const verification::RunLog& log) { return judge_(log); });
    to_automatic();
    judge_.judged = 1;
    pressure_.hold(0.0, 2.0).cycles(3, 40.0, -40.0);
    play();
    ASSERT_TRUE(run_->view().duty);
    EXPECT_NEAR(run_->view().duty->cycled_s, 4.0, 0.5);
    EXPECT_EQ(run_->view().duty->limit_s, 10.0);
    EXPECT_EQ(run_->view().deed, Deed::nothing);
    pressure_.cycles(5, 40.0, -40.0);
    play();
    EXPECT_THAT(run_->view().sentence, HasSubstr("rest"));
    EXPECT_EQ(run_->view().deed, Deed::stop_unit);
    EXPECT_LE(run_->view().duty->rest_left_s.value(), 5.0);
    pressure_.hold(0.0, 6.0);
    play();
    EXPECT_THAT(run_->view().sentence, HasSubstr("Start automatic"));
    EXPECT_EQ(run_->view().deed, Deed::start_automatic);
    judge_.judged = 3;
    pressure_.cycles(3, 40.0, -40.0);
    play();
    const auto kinds = spans();
    EXPECT_EQ(std::count(kinds.begin(), kinds.end(), SpanKind::automatic), 2);
}

TEST_F(BenchRunTest, a_critical_finding_stops_the_automatic_run)
{
    to_automatic();
    judge_.critical = true;
    pressure_.hold(0.0, 2.0).cycles(2, 46.0, -40.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::hand_back);
    EXPECT_THAT(news(), HasSubstr("keep this unit out of use"));
}

TEST_F(BenchRunTest, a_pressure_too_high_in_a_manual_hold_stops_the_run_at_once)
{
    to_manual();
    judge_.critical = true;
    judge_.finding = "over-pressure";
    pressure_.hold(0.0, 2.0).hold(46.0, 3.0).hold(0.0, 2.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::hand_back);
    EXPECT_EQ(run_->view().deed, Deed::make_safe);
    EXPECT_THAT(run_->view().sentence, HasSubstr("hold it back"));
    EXPECT_THAT(spans(), ElementsAre(SpanKind::zero_before, SpanKind::manual));
    EXPECT_TRUE(run_->hand_back().held);
    run_->set_returned(true, std::nullopt);
    EXPECT_EQ(run_->log().restored, false) << "a unit that is held back was not given back";
    ASSERT_THAT(run_->log().checklist, SizeIs(1));
    EXPECT_EQ(run_->log().checklist.front().item, kHeldItem);
    EXPECT_EQ(run_->log().checklist.front().outcome, verification::ChecklistItem::Outcome::ok);
    run_->confirm();
    EXPECT_EQ(run_->ending(), Ending::critical);
}

TEST_F(BenchRunTest, a_breath_at_the_open_line_stops_the_run_before_the_hose_is_shut)
{
    to_zero();
    judge_.critical = true;
    judge_.finding = "breathing";
    for (int breaths = 0; breaths < 6; ++breaths) {
        pressure_.hold(3.0, 1.5).hold(0.0, 1.5);
    }
    play();
    EXPECT_EQ(run_->view().step, StepKind::hand_back);
    EXPECT_THAT(news(), HasSubstr("Is someone connected?"));
    EXPECT_TRUE(run_->hand_back().person);
    EXPECT_FALSE(run_->hand_back().held) << "the unit is not to blame";
    EXPECT_THAT(spans(), ElementsAre(SpanKind::zero_before)) << "what was seen is kept";
}

TEST_F(BenchRunTest, a_line_that_sways_once_is_no_breath)
{
    to_zero();
    judge_.critical = true;
    judge_.finding = "breathing";
    pressure_.hold(3.0, 1.5).hold(0.0, 4.0);
    play();
    judge_ = {};
    pressure_.hold(0.0, 4.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::plug);
}

TEST_F(BenchRunTest, zero_is_not_read_again_before_the_gas_has_settled)
{
    to_automatic();
    judge_.judged = 3;
    pressure_.hold(0.0, 2.0).cycles(5, 40.0, -40.0);
    play();
    run_->confirm();
    EXPECT_EQ(run_->view().step, StepKind::zero_after);
    pressure_.hold(0.0, 7.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::zero_after) << "3.5 s and five seconds are not over";
    pressure_.hold(0.0, 3.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::hand_back);
    const auto& spans = run_->log().spans;
    EXPECT_GE(spans.back().from_s - spans[spans.size() - 2].to_s, 2.5);
}

TEST_F(BenchRunTest, cycling_that_goes_on_holds_the_second_zero_up)
{
    to_automatic();
    judge_.judged = 3;
    pressure_.hold(0.0, 2.0).cycles(5, 40.0, -40.0);
    play();
    run_->confirm();
    pressure_.cycles(8, 40.0, -40.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::zero_after);
}

TEST_F(BenchRunTest, hand_back_completes_the_run_and_its_log)
{
    to_automatic();
    judge_.judged = 3;
    pressure_.hold(0.0, 2.0).cycles(5, 40.0, -40.0).hold(0.0, 1.0);
    play();
    run_->confirm();
    pressure_.hold(0.0, 10.0);
    play();
    EXPECT_TRUE(run_->hand_back().safe);
    run_->set_displayed({{"day", 40.0, -40.0, verification::Shows::live}});
    run_->set_returned(true, std::nullopt);
    run_->confirm();
    EXPECT_TRUE(run_->ended());
    EXPECT_EQ(run_->ending(), Ending::completed);
    const auto log = run_->log();
    EXPECT_THAT(spans(),
                ElementsAre(SpanKind::zero_before, SpanKind::manual, SpanKind::automatic, SpanKind::zero_after));
    EXPECT_EQ(log.restored, true);
    for (std::size_t i = 1; i < log.spans.size(); ++i) {
        EXPECT_GE(log.spans[i].from_s, log.spans[i - 1].to_s) << "spans do not overlap";
    }
}

TEST_F(BenchRunTest, the_unit_can_be_given_back_from_every_step)
{
    for (int words = 0; words < 3; ++words) {
        begin();
        for (int i = 0; i < words; ++i) {
            run_->confirm();
        }
        run_->stop(Ending::given_back);
        EXPECT_EQ(run_->view().step, StepKind::hand_back);
        EXPECT_FALSE(run_->hand_back().safe) << "the plug may still be in";
        EXPECT_FALSE(run_->hand_back().held);
        run_->confirm();
        EXPECT_EQ(run_->ending(), Ending::given_back);
    }
}

std::string list_for(const HandBack& what)
{
    verification::WorkOrder order;
    order.occasion = verification::Occasion::home_visit; // a person gets it back
    order.contact = "the desk";
    order.presets.emplace_back();
    order.presets.back().name = "day";
    std::string text;
    for (const auto& item : hand_back_list(order, what)) {
        text += item + "\n";
    }
    return text;
}

TEST(HandBackList, begins_with_plug_and_line_where_zero_was_not_read_again)
{
    EXPECT_THAT(list_for({.safe = false}),
                StartsWith("therapy stopped: the unit out of manual and automatic\nplug out"));
    EXPECT_THAT(list_for({.safe = true}), Not(HasSubstr("plug")));
    EXPECT_THAT(list_for({.safe = true}), HasSubstr("unit switched on"));
}

TEST(HandBackList, has_the_mains_lead_put_in_where_it_was_taken_out)
{
    EXPECT_THAT(list_for({.mains_out = true}), HasSubstr("mains lead in again"));
    EXPECT_THAT(list_for({.held = true, .mains_out = true}), Not(HasSubstr("mains lead in again")))
        << "a unit that is held is switched off";
}

TEST(HandBackList, does_not_return_a_critical_unit_to_service)
{
    const auto list = list_for({.held = true});
    for (const auto* wanted : {"plug out", "switched off", "labelled 'out of use'", "replacement", "the desk"}) {
        EXPECT_THAT(list, HasSubstr(wanted));
    }
    for (const auto* unwanted : {"own hose", "switched on", "mains lead in", "preset 'day'"}) {
        EXPECT_THAT(list, Not(HasSubstr(unwanted)));
    }
}

TEST(HandBackList, sees_to_a_connected_person_first_and_then_asks_to_run_again)
{
    const auto list = list_for({.person = true});
    EXPECT_THAT(list, StartsWith("the person: hose off"));
    EXPECT_THAT(list, HasSubstr("run again with nobody connected"));
    EXPECT_THAT(list, Not(HasSubstr("out of use")));
}

TEST_F(BenchRunTest, a_lost_line_stops_the_clock_of_the_run)
{
    to_manual();
    run_->line_lost();
    wait(1000.0);
    EXPECT_FALSE(run_->ended());
    EXPECT_TRUE(run_->view().line_lost);
    run_->line_back();
    wait(25.0);
    EXPECT_EQ(run_->view().step, StepKind::plug);
    wait(10.0);
    EXPECT_EQ(run_->view().step, StepKind::hand_back);
}

TEST_F(BenchRunTest, a_line_lost_while_zero_is_read_begins_the_reading_anew)
{
    to_zero();
    pressure_.hold(0.0, 3.0);
    play();
    run_->line_lost();
    pressure_.skip(4.0);
    run_->line_back();
    pressure_.hold(0.0, 3.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::zero_before);
    pressure_.hold(0.0, 3.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::plug);
}

TEST_F(BenchRunTest, nothing_moves_after_the_end)
{
    run_->abandon(Ending::interrupted);
    run_->confirm();
    run_->stop(Ending::given_back);
    pressure_.hold(0.0, 10.0);
    play();
    EXPECT_EQ(run_->ending(), Ending::interrupted);
}

TEST_F(BenchRunTest, each_preset_is_toggled_and_cycled_on_its_own)
{
    auto night = order_.presets.front();
    night.name = "night";
    night.insufflation.pressure_cmH2O = 30.0;
    order_.presets.push_back(night);
    begin();
    to_automatic();
    judge_.judged = 3;
    pressure_.hold(0.0, 2.0).cycles(5, 40.0, -40.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::stand_still);
    EXPECT_THAT(run_->view().sentence, HasSubstr("'night'"));
    judge_.judged = 0;
    pressure_.hold(0.0, 3.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::manual);
    pressure_.toggles(30.0, -40.0).toggles(30.0, -40.0);
    play();
    judge_.judged = 3;
    pressure_.hold(0.0, 1.0).cycles(5, 30.0, -40.0);
    play();
    EXPECT_EQ(run_->view().place, "Zero again");
    EXPECT_EQ(run_->log().spans.back().preset, "night");
}

} // namespace zeroline::session
