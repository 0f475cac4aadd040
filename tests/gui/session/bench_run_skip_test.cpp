// Steps left out with a reason, and what is noted beside a run.

#include "tests/gui/session/bench_run_fixture.hpp"

#include "analysis/record/record.hpp"
#include "gui/session/checklist.hpp"
#include "gui/session/result_view.hpp"
#include "tests/gui/session/played_run.hpp"

#include <gmock/gmock.h>

namespace zeroline::session {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

TEST_F(BenchRunTest, what_keeps_people_safe_is_never_left_out)
{
    for (int i = 0; i < 3; ++i) {
        EXPECT_FALSE(run_->view().can_skip) << i;
        run_->skip("no time");
        EXPECT_EQ(run_->view().number, static_cast<std::size_t>(i));
        run_->confirm();
    }
    pressure_.hold(0.0, 6.0);
    play();
    ASSERT_EQ(run_->view().step, StepKind::plug);
    run_->skip("no plug");
    EXPECT_EQ(run_->view().step, StepKind::plug);
    EXPECT_THAT(run_->log().skipped, IsEmpty());
}

TEST_F(BenchRunTest, a_step_is_left_out_only_with_a_reason)
{
    to_zero();
    EXPECT_TRUE(run_->view().can_skip);
    run_->skip("");
    EXPECT_EQ(run_->view().step, StepKind::zero_before);
    run_->skip("the line cannot be taken off");
    EXPECT_EQ(run_->view().step, StepKind::plug);
    ASSERT_EQ(run_->log().skipped.size(), 1U);
    EXPECT_EQ(run_->log().skipped.front().what, SpanKind::zero_before);
    EXPECT_THAT(news(), HasSubstr("Skipped: the line cannot be taken off"));
}

TEST_F(BenchRunTest, without_a_zero_the_pressure_moves_the_run_on_all_the_same)
{
    to_zero();
    pressure_.hold(0.0, 1.0);
    play();
    run_->skip("no way to open the line");
    pressure_.hold(0.0, 1.0).hold(40.0, 1.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::manual);
}

TEST_F(BenchRunTest, manual_holds_left_out_keep_what_was_seen_and_the_run_goes_on)
{
    to_manual();
    pressure_.hold(0.0, 2.0).hold(40.0, 2.0).hold(0.0, 1.0);
    play();
    ASSERT_EQ(run_->view().step, StepKind::manual);
    run_->skip("the unit has no manual mode");
    EXPECT_EQ(run_->view().step, StepKind::automatic);
    EXPECT_THAT(spans(), ElementsAre(SpanKind::zero_before, SpanKind::manual));
    EXPECT_EQ(run_->log().skipped.front().preset, "day");
    judge_.judged = 3;
    pressure_.hold(0.0, 2.0).cycles(5, 40.0, -40.0);
    play();
    EXPECT_EQ(run_->view().place, "Zero again");
}

TEST_F(BenchRunTest, a_hold_that_goes_on_while_the_step_is_left_out_is_no_cycle)
{
    to_manual();
    pressure_.hold(0.0, 2.0).hold(40.0, 1.0);
    play();
    run_->skip("no time");
    const double left_at_s = now_s_;
    pressure_.hold(40.0, 2.0).hold(0.0, 3.0);
    play();
    EXPECT_EQ(run_->view().deed, Deed::start_automatic) << "still waits for the unit to cycle";
    pressure_.cycles(1, 40.0, -40.0);
    play();
    ASSERT_EQ(run_->log().spans.back().what, SpanKind::automatic);
    EXPECT_GT(run_->log().spans.back().from_s, left_at_s + 2.0);
}

TEST_F(BenchRunTest, the_last_zero_can_be_left_out_and_the_unit_is_still_given_back)
{
    to_automatic();
    run_->skip("only the holds are wanted");
    run_->confirm();
    ASSERT_EQ(run_->view().step, StepKind::zero_after);
    run_->skip("the unit is needed");
    EXPECT_EQ(run_->view().step, StepKind::hand_back);
    EXPECT_FALSE(run_->view().can_skip);
    ASSERT_EQ(run_->log().skipped.size(), 2U);
    EXPECT_EQ(run_->log().skipped.back().what, SpanKind::zero_after);
    run_->confirm();
    EXPECT_EQ(run_->ending(), Ending::completed);
}

TEST_F(BenchRunTest, done_is_only_what_was_neither_left_out_nor_broken_off)
{
    to_manual();
    const auto manual = run_->view().number;
    run_->skip("the unit has no manual mode");
    const auto automatic = run_->view().number;
    run_->stop(Ending::given_back);
    const auto back = run_->view().number;
    ASSERT_EQ(run_->view().step, StepKind::hand_back);
    ASSERT_GT(back, automatic + 1) << "there is something that was never reached";
    for (std::size_t i = 0; i < manual; ++i) {
        EXPECT_TRUE(run_->done(i)) << i;
    }
    for (std::size_t i = manual; i <= back; ++i) {
        EXPECT_FALSE(run_->done(i)) << i;
    }
    run_->confirm();
    EXPECT_TRUE(run_->done(back));
}

TEST_F(BenchRunTest, checklist_and_air_of_the_room_may_come_while_it_runs)
{
    to_automatic();
    run_->set_checklist({{"hose", verification::ChecklistItem::Outcome::not_ok, "a crack"}});
    run_->set_environment({22.5, {}, 41.0});
    ASSERT_EQ(run_->log().checklist.size(), 1U);
    EXPECT_EQ(run_->log().checklist.front().remark, "a crack");
    ASSERT_TRUE(run_->log().environment);
    EXPECT_EQ(run_->log().environment->temperature_C, 22.5);
    run_->set_environment({});
    EXPECT_FALSE(run_->log().environment->temperature_C) << "nothing known is nothing written";
    EXPECT_EQ(run_->log().environment->instrument_on_s, 0.0) << "nobody said how long the instrument had been on";
}

TEST(Checklist, of_every_occasion_has_words_and_each_item_once)
{
    using verification::Occasion;
    for (const auto occasion : {Occasion::pre_delivery, Occasion::periodic, Occasion::home_visit}) {
        const auto items = checklist_of(occasion);
        EXPECT_GE(items.size(), 4U);
        std::vector<verification::ChecklistItem> noted;
        for (const auto& item : items) {
            EXPECT_EQ(checklist_words(item).toStdString(), item);
            note_item(noted, {item, {}, {}});
        }
        EXPECT_EQ(noted.size(), items.size());
    }
    EXPECT_THAT(checklist_of(Occasion::pre_delivery), Not(Contains("battery")))
        << "the same plateau on battery says nothing about how long it lasts";
}

TEST(SkippedSteps, stand_with_what_was_not_tested_and_with_their_reasons)
{
    verification::Assessment assessment;
    assessment.not_tested = {"flow", "signs", "manual-holds"};
    const auto order = short_order();
    verification::RunLog run;
    run.skipped = {{SpanKind::manual, "day", "no manual mode"}};
    verification::Evidence evidence;
    evidence.order = &order;
    evidence.run = &run;
    // All of the checklist but two items was answered: those stand with what was not tested too.
    for (const auto& item : checklist_of(order.occasion)) {
        if (item != "label" && item != "clock") {
            run.checklist.push_back({item, verification::ChecklistItem::Outcome::ok, {}});
        }
    }
    const nlohmann::json tree = record::to_json(evidence, assessment, {});
    EXPECT_EQ(result_view(RecordTree(tree), Reader::screen).not_tested.toStdString(),
              "Pressures and times at a closed hose end only. Not tested: flow, signs, manual holds. Not looked at: "
              "label; clock. Skipped: manual holds, preset 'day' (no manual mode).");
}

} // namespace zeroline::session
