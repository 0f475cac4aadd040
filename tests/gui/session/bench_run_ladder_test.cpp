// A ladder: what is dialled in is recognised before it counts, and in the end it is dialled back.

#include "gui/records/procedure_file.hpp"
#include "tests/gui/session/bench_run_fixture.hpp"

namespace zeroline::session {

using testing::HasSubstr;
using testing::Not;

class LadderRunTest : public BenchRunTest {
protected:
    /// The machine at the first setting of a ladder 20, 30, 40, after the prescribed 40/-40 was run.
    void to_ladder(std::vector<double> durations = {})
    {
        auto procedure = records::load_procedure("guided").meaning;
        verification::ProcedureStep ladder;
        ladder.kind = verification::ProcedureStep::Kind::ladder;
        ladder.rise_cmH2O = 10.0;
        ladder.cycles = 1;
        ladder.durations_s = std::move(durations);
        procedure.steps.insert(procedure.steps.end() - 2, ladder);
        RunSettings settings;
        settings.wait_s = 30.0;
        run_.emplace(
            order_, settings, [this](const verification::RunLog& log) { return judge_(log); },
            run_steps(procedure, order_));
        judge_.judged = 3;
        to_automatic();
        pressure_.cycles(4, 40.0, -40.0).hold(0.0, 5.0);
        play();
        judge_.judged = 0;
        ASSERT_EQ(run_->view().step, StepKind::ladder) << run_->view().sentence;
        (void)news();
    }
    void cycles(int count, double up, double down)
    {
        pressure_.cycles(count, up, down);
        play();
    }
    /// Enough of the setting has been judged.
    void over()
    {
        judge_.judged = 1;
        cycles(1, last_up_, last_down_);
        pressure_.hold(0.0, 4.0);
        play();
        judge_.judged = 0;
    }
    void run_at(double up, double down)
    {
        last_up_ = up;
        last_down_ = down;
        cycles(2, up, down);
        ASSERT_EQ(spans().back(), SpanKind::ladder) << run_->view().sentence;
        over();
    }
    double last_up_ = 0.0, last_down_ = 0.0;
};

TEST_F(LadderRunTest, says_what_comes_next_and_goes_by_what_the_pressure_does)
{
    to_ladder();
    EXPECT_THAT(run_->view().sentence, HasSubstr("+20 / -20 cmH2O"));
    EXPECT_EQ(run_->view().deed, Deed::dial);
    EXPECT_EQ(run_->view().dialled->insufflation_pressure, 20.0);
    // A unit that is 15 % low at every setting runs at what was asked for all the same.
    run_at(17.0, -17.0);
    ASSERT_THAT(run_->view().sentence, HasSubstr("+30 / -30 cmH2O"));
    const auto span = run_->log().spans.back();
    EXPECT_EQ(span.set->insufflation_pressure, 20.0);
    run_at(25.5, -25.5);
    ASSERT_THAT(run_->view().sentence, HasSubstr("+40 / -40 cmH2O"));
}

TEST_F(LadderRunTest, a_unit_left_at_its_old_setting_does_not_count_and_is_told_what_it_runs_at)
{
    to_ladder();
    cycles(2, 40.0, -40.0);
    EXPECT_THAT(spans(), Not(testing::Contains(SpanKind::ladder)));
    EXPECT_THAT(news(), HasSubstr("It runs at about +40.0 / -40.0 cmH2O"));
    EXPECT_TRUE(run_->view().can_go_on);
    cycles(2, 20.0, -20.0);
    EXPECT_EQ(spans().back(), SpanKind::ladder) << "dialled in after all";
}

TEST_F(LadderRunTest, one_sign_alone_is_not_enough)
{
    to_ladder();
    cycles(3, 20.0, -40.0);
    EXPECT_THAT(spans(), Not(testing::Contains(SpanKind::ladder)));
}

TEST_F(LadderRunTest, a_dial_that_stands_right_is_taken_as_it_is_when_a_person_says_so)
{
    to_ladder();
    cycles(2, 40.0, -40.0);
    run_->go_on();
    cycles(1, 40.0, -40.0);
    EXPECT_EQ(spans().back(), SpanKind::ladder) << "a unit that does not follow its dial is what this is to show";
}

TEST_F(LadderRunTest, ends_with_dialling_back_to_what_is_prescribed)
{
    to_ladder();
    run_at(20.0, -20.0);
    run_at(30.0, -30.0);
    run_at(40.0, -40.0);
    run_at(40.0, -20.0);
    EXPECT_EQ(run_->view().deed, Deed::dial_back);
    EXPECT_THAT(run_->view().sentence, HasSubstr("+40 / -40 cmH2O"));
    EXPECT_EQ(run_->view().dialled->pause_duration, 0.5);
    run_->confirm();
    EXPECT_EQ(run_->view().place, "Zero again");
}

TEST_F(LadderRunTest, a_setting_can_be_left_out_with_its_reason)
{
    to_ladder();
    run_->skip("the dial is stiff");
    EXPECT_EQ(run_->log().skipped.back().what, SpanKind::ladder);
    EXPECT_THAT(run_->view().sentence, HasSubstr("+30 / -30 cmH2O"));
}

TEST(LadderSteps, rest_before_too_much_of_blocked_running_and_rise_to_the_highest_that_is_prescribed)
{
    auto order = short_order();
    order.presets.front().insufflation = {38.0, 2.0};
    order.presets.front().exsufflation = {-42.0, 2.0};
    order.presets.front().pause.duration_s = 2.0;
    auto procedure = records::load_procedure("periodic").meaning;
    double cycled_s = 0.0;
    std::vector<double> pressures;
    for (const auto& step : run_steps(procedure, order)) {
        if (step.kind == StepKind::stand_still)
            cycled_s = 0.0;
        if (step.kind != StepKind::ladder)
            continue;
        pressures.push_back(*step.dialled->insufflation_pressure);
        cycled_s += 4.0 * (*step.dialled->insufflation_duration + *step.dialled->exsufflation_duration + 2.0);
        EXPECT_LE(cycled_s, 90.0) << step.sentence;
    }
    EXPECT_THAT(pressures, testing::ElementsAre(20.0, 25.0, 30.0, 35.0, 40.0, 42.0, 42.0, 38.0, 38.0, 38.0, 38.0));
}

} // namespace zeroline::session
