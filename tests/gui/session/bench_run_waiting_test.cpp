// A run that waits: what it says meanwhile, and that nothing it has seen is lost.

#include "tests/gui/session/bench_run_fixture.hpp"

namespace zeroline::session {

using testing::HasSubstr;
using testing::Not;

class RunThatReminds : public BenchRunTest {
protected:
    RunThatReminds()
    {
        RunSettings settings;
        settings.wait_s = 900.0;
        settings.duty = {90.0, 30.0};
        settings.reminds = true;
        run_.emplace(order_, settings, [this](const verification::RunLog& log) { return judge_(log); });
    }
};

TEST_F(RunThatReminds, says_each_minute_what_it_waits_for_and_how_the_unit_is_given_back)
{
    to_manual();
    static_cast<void>(news());
    wait(65.0);
    const auto once = news();
    EXPECT_THAT(once, HasSubstr("1 min by now"));
    EXPECT_THAT(once, HasSubstr("Esc"));
    wait(30.0);
    EXPECT_EQ(news(), "");
    wait(40.0);
    EXPECT_THAT(news(), HasSubstr("2 min by now"));
    EXPECT_FALSE(run_->stopping()) << "waiting discards nothing";
}

TEST_F(RunThatReminds, counts_from_its_beginning_whatever_the_clock_says_then)
{
    run_->advance(1e6);
    run_->advance(1e6 + 10.0);
    EXPECT_FALSE(run_->stopping());
    EXPECT_EQ(news().find("min by now"), std::string::npos);
}

TEST_F(RunThatReminds, goes_to_the_hand_back_list_after_a_quarter_of_an_hour_at_a_word_too)
{
    wait(890.0);
    EXPECT_FALSE(run_->stopping());
    wait(20.0);
    EXPECT_EQ(run_->view().step, StepKind::hand_back);
    EXPECT_EQ(run_->ending(), Ending::out_of_time);
    EXPECT_FALSE(run_->view().can_take_back) << "going on needs a new zero";
}

TEST_F(RunThatReminds, gives_back_and_takes_it_back)
{
    to_manual();
    ASSERT_EQ(run_->view().place, "Block");
    run_->stop(Ending::given_back);
    EXPECT_TRUE(run_->view().can_take_back);
    run_->take_back();
    EXPECT_EQ(run_->view().place, "Block");
    EXPECT_FALSE(run_->stopping());
    EXPECT_FALSE(run_->view().can_take_back);
}

TEST_F(RunThatReminds, names_a_pressure_that_is_far_too_low_at_the_first_hold)
{
    to_manual();
    pressure_.hold(0.0, 2.0).toggles(6.0, -6.0);
    play();
    EXPECT_THAT(news(), HasSubstr("is the plug in and tight"));
}

TEST_F(RunThatReminds, names_the_other_sign_at_the_first_hold)
{
    to_manual();
    pressure_.hold(0.0, 2.0).toggles(-40.0, 40.0);
    play();
    EXPECT_THAT(news(), HasSubstr("wrong port"));
}

TEST_F(RunThatReminds, names_a_pressure_that_hardly_moves_at_the_plug)
{
    to_manual();
    pressure_.hold(0.6, 8.0);
    play();
    EXPECT_EQ(run_->view().place, "Block");
    EXPECT_THAT(news(), HasSubstr("unit of the instrument"));
}

TEST_F(RunThatReminds, says_in_its_log_that_the_settings_were_stated_as_prescribed)
{
    verification::Settings as;
    as.insufflation_pressure = 40.0;
    run_->set_found({{order_.presets.front().name, as}}, true);
    EXPECT_TRUE(run_->log().has_confirmed("found-as-prescribed"));
    EXPECT_EQ(run_->log().settings_found->size(), 1U);
    run_->set_found({}, false);
    EXPECT_FALSE(run_->log().has_confirmed("found-as-prescribed"));
    EXPECT_FALSE(run_->log().settings_found);
}

TEST(HandBackList, depends_on_the_occasion_and_on_the_outcome)
{
    const auto list = [](verification::Occasion occasion, bool failed) {
        auto order = short_order();
        order.occasion = occasion;
        std::string all;
        for (const auto& item : hand_back_list(order, {.safe = true, .failed = failed}))
            all += item + "\n";
        return all;
    };
    using verification::Occasion;
    EXPECT_THAT(list(Occasion::home_visit, false), HasSubstr("own hose"));
    EXPECT_THAT(list(Occasion::pre_delivery, false), Not(HasSubstr("own hose"))) << "it is nobody's yet";
    EXPECT_THAT(list(Occasion::home_visit, true), Not(HasSubstr("own hose")));
    EXPECT_THAT(list(Occasion::periodic, true), HasSubstr("not given out"));
    EXPECT_THAT(list(Occasion::home_visit, true), HasSubstr("a person depends on it"));
    EXPECT_THAT(list(Occasion::home_visit, false), HasSubstr("may be connected to a person again"));
    EXPECT_THAT(list(Occasion::home_visit, true), HasSubstr("connected to nobody before"));
    EXPECT_THAT(hand_back_sentence({.failed = true}), HasSubstr("Do not give the unit out"));
    EXPECT_THAT(hand_back_sentence({}), HasSubstr("Give the unit back"));
}

} // namespace zeroline::session
