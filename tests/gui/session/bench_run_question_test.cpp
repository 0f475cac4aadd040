// What a run asks of the person beside it: whether something soft is at the hose end, and for more cycles.

#include "tests/gui/session/bench_run_fixture.hpp"

namespace zeroline::session {
namespace {

using testing::HasSubstr;

/// Counts cycles as the other one does; from a cycle on, the pressure moves as if a lung was there, or one is unlike.
struct DoubtingJudge {
    CountingJudge counting;
    bool soft = false, unlike = false;

    verification::Assessment operator()(const verification::RunLog& log) const
    {
        auto assessment = counting(log);
        verification::Finding finding;
        finding.severity = verification::Severity::caution;
        if (soft && !log.hose_end) {
            finding.code = "soft-hose-end";
            finding.touches = {"insufflation-pressure"};
            assessment.findings.push_back(finding);
        }
        if (unlike) {
            finding.code = "one-cycle-unlike";
            finding.touches.clear();
            assessment.findings.push_back(finding);
        }
        return assessment;
    }
};

class BenchRunQuestion : public BenchRunTest {
protected:
    BenchRunQuestion() { begin_with("operator 3"); }

    void begin_with(const std::string& name)
    {
        RunSettings settings;
        settings.wait_s = 30.0;
        settings.duty = {90.0, 30.0};
        settings.log.run_operator = name;
        settings.now = [] { return std::string("2026-11-25T09:12:04+01:00"); };
        run_.emplace(order_, settings, [this](const verification::RunLog& log) { return doubting_(log); });
    }

    /// Into the cycling, until the run asks.
    void to_question()
    {
        to_automatic();
        pressure_.hold(0.0, 2.0).cycles(1, 40.0, -40.0);
        play();
        doubting_.soft = true;
        pressure_.cycles(2, 40.0, -40.0);
        play();
    }

    DoubtingJudge doubting_;
};

TEST_F(BenchRunQuestion, about_a_soft_hose_end_comes_at_once_and_cycling_stops_meanwhile)
{
    to_question();
    const auto view = run_->view();
    EXPECT_TRUE(view.asks_hose_end);
    EXPECT_EQ(view.deed, Deed::stop_unit);
    EXPECT_THAT(view.sentence, HasSubstr("Is a person, a bag or a soft tube connected?"));
    EXPECT_FALSE(view.can_skip);
    const auto spans_before = run_->log().spans.size();
    doubting_.counting.judged = 3;
    pressure_.cycles(3, 40.0, -40.0);
    play();
    wait(60.0);
    EXPECT_TRUE(run_->view().asks_hose_end) << "nothing moves on, and no time runs out";
    EXPECT_EQ(run_->log().spans.size(), spans_before);
}

TEST_F(BenchRunQuestion, that_is_answered_goes_into_the_log_with_name_and_time_and_the_run_goes_on)
{
    to_question();
    run_->confirm();
    const auto log = run_->log();
    ASSERT_TRUE(log.hose_end);
    EXPECT_TRUE(log.hose_end->nothing_soft);
    EXPECT_EQ(log.hose_end->by, "operator 3");
    EXPECT_EQ(log.hose_end->at, "2026-11-25T09:12:04+01:00");
    EXPECT_EQ(run_->view().step, StepKind::automatic);
    pressure_.hold(0.0, 3.0).cycles(4, 40.0, -40.0);
    play();
    doubting_.counting.judged = 3;
    pressure_.cycles(2, 40.0, -40.0);
    play();
    EXPECT_EQ(run_->view().place, "Zero again");
}

TEST_F(BenchRunQuestion, that_is_refused_is_not_asked_again_and_stays_unanswered)
{
    to_question();
    run_->go_on();
    EXPECT_FALSE(run_->view().asks_hose_end);
    pressure_.hold(0.0, 3.0).cycles(2, 40.0, -40.0);
    play();
    EXPECT_FALSE(run_->view().asks_hose_end);
    EXPECT_FALSE(run_->log().hose_end);
}

TEST_F(BenchRunQuestion, cannot_be_answered_by_nobody)
{
    begin_with("");
    to_question();
    EXPECT_FALSE(run_->view().can_confirm);
    run_->confirm();
    EXPECT_FALSE(run_->log().hose_end);
}

TEST_F(BenchRunQuestion, of_a_cycle_unlike_the_others_is_for_as_many_cycles_again)
{
    to_automatic();
    pressure_.hold(0.0, 2.0).cycles(4, 40.0, -40.0);
    play();
    doubting_.unlike = true;
    doubting_.counting.judged = 3;
    pressure_.cycles(2, 40.0, -40.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::automatic) << "three are enough only where all are alike";
    EXPECT_THAT(news(), HasSubstr("One cycle is unlike the others"));
    doubting_.counting.judged = 6;
    pressure_.cycles(2, 40.0, -40.0);
    play();
    EXPECT_EQ(run_->view().place, "Zero again");
}

} // namespace
} // namespace zeroline::session
