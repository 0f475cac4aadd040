// The machine goes by a procedure: what is asked, what is answered, and that every shipped one comes to its end.

#include "gui/records/procedure_file.hpp"
#include "gui/session/checklist.hpp"
#include "gui/session/procedure_words.hpp"
#include "tests/gui/session/bench_run_fixture.hpp"

#include "acquisition/trace/input_error.hpp"
#include "analysis/verification/assessment.hpp"

#include <set>

namespace zeroline::session {

using Answer = verification::ChecklistItem::Outcome;
using testing::ElementsAre;
using testing::HasSubstr;

namespace {

verification::Procedure asking_procedure()
{
    auto procedure = records::load_procedure("guided").meaning;
    verification::ProcedureStep check, value, rest;
    check.kind = verification::ProcedureStep::Kind::check;
    check.item = "case";
    value.kind = verification::ProcedureStep::Kind::value;
    value.item = "earth resistance";
    value.unit = "ohm";
    value.high = 0.3;
    value.basis = "rule 7";
    rest.kind = verification::ProcedureStep::Kind::rest;
    rest.seconds = 20.0;
    procedure.steps.insert(procedure.steps.begin() + 1, {check, value});
    for (auto& step : procedure.steps) {
        if (!step.steps.empty()) {
            step.steps[1].power = "battery";
            step.steps.push_back(rest);
        }
    }
    return procedure;
}

} // namespace

class ProcedureRunTest : public BenchRunTest {
protected:
    void begin_with(const verification::Procedure& procedure, std::vector<verification::ChecklistItem> known = {})
    {
        RunSettings settings;
        settings.wait_s = 30.0;
        settings.log.checklist = std::move(known);
        run_.emplace(
            order_, settings, [this](const verification::RunLog& log) { return judge_(log); },
            run_steps(procedure, order_));
    }
};

TEST_F(ProcedureRunTest, what_is_asked_is_answered_into_the_checklist)
{
    begin_with(asking_procedure());
    run_->confirm();
    ASSERT_EQ(run_->view().step, StepKind::check);
    EXPECT_EQ(run_->view().item, "case");
    run_->confirm();
    ASSERT_EQ(run_->view().step, StepKind::check) << "a bare word is no answer";
    run_->answer(Answer::not_ok, "a crack");
    ASSERT_EQ(run_->view().step, StepKind::value);
    run_->answer(Answer::ok, {});
    ASSERT_EQ(run_->view().step, StepKind::value) << "a value is asked for";
    run_->answer(0.35);
    EXPECT_EQ(run_->view().step, StepKind::confirm);
    run_->set_checklist({{"hose", Answer::ok, {}}});
    const auto list = run_->log().checklist;
    ASSERT_EQ(list.size(), 3U) << "what is noted beside the run takes no answer away";
    EXPECT_EQ(list[1].item, "case");
    EXPECT_EQ(list[1].remark, "a crack");
    EXPECT_EQ(list[2].outcome, Answer::not_ok);
    EXPECT_EQ(list[2].remark, "0.35 ohm (at most 0.3, rule 7)");
    run_->set_checklist({{"case", Answer::ok, "no crack: a scratch"}});
    EXPECT_EQ(run_->log().checklist.front().outcome, Answer::ok) << "a slip is put right in the list beside the run";
}

TEST_F(ProcedureRunTest, what_is_confirmed_leaves_its_trace)
{
    auto procedure = records::load_procedure("guided").meaning;
    verification::ProcedureStep confirm;
    confirm.say = "Note the hour meter.";
    procedure.steps.insert(procedure.steps.begin() + 1, confirm);
    begin_with(procedure);
    run_->confirm();
    EXPECT_EQ(run_->view().sentence, "Note the hour meter.");
    EXPECT_TRUE(run_->log().checklist.empty()) << "not done yet";
    run_->confirm();
    ASSERT_EQ(run_->log().checklist.size(), 1U);
    EXPECT_EQ(run_->log().checklist.front().item, "Note the hour meter.");
}

TEST_F(ProcedureRunTest, what_is_left_out_says_why_and_what_is_known_is_not_asked)
{
    begin_with(asking_procedure(), {{"case", Answer::ok, {}}});
    run_->confirm();
    ASSERT_EQ(run_->view().step, StepKind::value);
    EXPECT_TRUE(run_->view().can_skip);
    run_->skip("no meter here");
    EXPECT_EQ(run_->log().checklist.back().outcome, Answer::not_applicable);
    EXPECT_EQ(run_->log().checklist.back().remark, "no meter here");
}

TEST_F(ProcedureRunTest, a_question_waits_as_long_as_a_person_needs_and_the_unit_can_be_given_back_from_it)
{
    begin_with(asking_procedure());
    run_->confirm();
    wait(300.0);
    ASSERT_EQ(run_->view().step, StepKind::check);
    run_->stop(Ending::given_back);
    EXPECT_EQ(run_->view().step, StepKind::hand_back);
}

TEST_F(ProcedureRunTest, a_rest_lasts_as_long_as_it_says_and_the_power_stands_in_the_span)
{
    begin_with(asking_procedure());
    judge_.judged = 3;
    run_->confirm();
    run_->answer(Answer::ok, {});
    run_->answer(0.1);
    to_zero();
    pressure_.hold(0.0, 6.0).hold(0.0, 2.0).toggles(40.0, -40.0).toggles(40.0, -40.0).hold(0.0, 3.0);
    play();
    ASSERT_EQ(run_->view().step, StepKind::confirm) << "the mains lead comes out";
    EXPECT_THAT(run_->view().sentence, HasSubstr("battery"));
    run_->confirm();
    pressure_.cycles(4, 40.0, -40.0).hold(0.0, 10.0);
    play();
    ASSERT_EQ(run_->view().step, StepKind::stand_still);
    EXPECT_THAT(run_->view().sentence, HasSubstr("20 s"));
    const double left_s = run_->view().duty.value().rest_left_s.value();
    EXPECT_GT(left_s, 5.0);
    pressure_.hold(0.0, 3.0);
    play();
    EXPECT_NEAR(run_->view().duty.value().rest_left_s.value(), left_s - 3.0, 0.1) << "the rest is counted down";
    pressure_.hold(0.0, 15.0);
    play();
    EXPECT_THAT(run_->view().sentence, HasSubstr("Put the mains lead in"));
    run_->confirm();
    EXPECT_EQ(run_->view().place, "Zero again");
    EXPECT_EQ(run_->log().spans.back().power, "battery");
}

TEST_F(ProcedureRunTest, a_second_run_of_a_preset_counts_its_own_cycles)
{
    auto procedure = records::load_procedure("guided").meaning;
    for (auto& step : procedure.steps) {
        if (!step.steps.empty()) {
            step.steps.push_back(step.steps.back());
        }
    }
    begin_with(procedure);
    to_automatic();
    pressure_.hold(0.0, 2.0).cycles(3, 40.0, -40.0);
    play();
    judge_.judged = 3;
    pressure_.hold(0.0, 3.0);
    play();
    ASSERT_EQ(run_->view().step, StepKind::automatic);
    ASSERT_EQ(run_->log().spans.back().what, SpanKind::automatic) << "the first run is over";
    judge_.in_first_run = true; // all that is judged lies in the first run
    pressure_.cycles(3, 40.0, -40.0);
    play();
    EXPECT_EQ(run_->view().step, StepKind::automatic) << "no cycle of this run was judged";
    judge_.in_first_run = false;
    pressure_.cycles(2, 40.0, -40.0).hold(0.0, 3.0);
    play();
    EXPECT_EQ(run_->view().place, "Zero again");
}

TEST_F(ProcedureRunTest, blocked_running_adds_up_over_steps_until_the_unit_has_rested)
{
    auto procedure = records::load_procedure("guided").meaning;
    for (auto& step : procedure.steps) {
        if (!step.steps.empty()) {
            step.steps.push_back(step.steps.back());
        }
    }
    RunSettings settings;
    settings.wait_s = 30.0;
    settings.duty = {8.0, 5.0};
    run_.emplace(
        order_, settings, [this](const verification::RunLog& log) { return judge_(log); },
        run_steps(procedure, order_));
    to_automatic();
    pressure_.hold(0.0, 2.0).cycles(3, 40.0, -40.0);
    play();
    judge_.judged = 3;
    pressure_.hold(0.0, 3.0);
    play();
    const double first_s = run_->view().duty.value().cycled_s;
    EXPECT_NEAR(first_s, 6.0, 1.5) << "the second run begins where the first one ended";
    judge_.in_first_run = true; // nothing of the second run is judged yet
    pressure_.cycles(3, 40.0, -40.0);
    play();
    ASSERT_TRUE(run_->view().duty.value().rest_left_s) << "neither run alone was too long";
    pressure_.hold(0.0, 6.0);
    play();
    EXPECT_LT(run_->view().duty.value().cycled_s, 0.5) << "rested";
}

TEST_F(ProcedureRunTest, one_without_holds_by_hand_leaves_the_first_press_to_nobody)
{
    auto procedure = records::load_procedure("guided").meaning;
    for (auto& step : procedure.steps) {
        if (!step.steps.empty()) {
            step.steps.erase(step.steps.begin());
            step.steps.front().power = "battery"; // a word stands between plug and cycles
        }
    }
    begin_with(procedure);
    to_zero();
    pressure_.hold(0.0, 6.0).hold(0.0, 2.0).hold(40.0, 3.0).hold(0.0, 2.0);
    play();
    ASSERT_THAT(run_->view().sentence, HasSubstr("battery"));
    run_->confirm();
    ASSERT_EQ(run_->view().step, StepKind::automatic);
    judge_.judged = 3;
    pressure_.hold(0.0, 2.0).cycles(4, 40.0, -40.0).hold(0.0, 3.0);
    play();
    for (const auto& span : run_->log().spans) {
        const bool named = span.what == SpanKind::zero_before || span.what == SpanKind::zero_after;
        EXPECT_TRUE(named || span.preset == "day") << "a span of nobody's: the judge cannot read it";
    }
    EXPECT_THAT(run_->view().sentence, HasSubstr("Put the mains lead in"));
}

TEST_F(ProcedureRunTest, what_was_measured_is_not_talked_away_but_typed_anew)
{
    begin_with(asking_procedure());
    run_->confirm();
    run_->answer(Answer::ok, {});
    EXPECT_EQ(run_->view().expects, "ohm, at most 0.3, rule 7");
    run_->answer(3.5);
    EXPECT_THAT(news(), HasSubstr("Not in order: earth resistance: 3.5 ohm (at most 0.3, rule 7)"));
    run_->set_checklist({{"earth resistance", Answer::ok, "fine"}});
    EXPECT_EQ(run_->log().checklist.front().outcome, Answer::not_ok);
    EXPECT_FALSE(run_->correct("case", 0.1)) << "nothing was measured there";
    ASSERT_TRUE(run_->correct("earth resistance", 0.25));
    const auto item = run_->log().checklist.front();
    EXPECT_EQ(item.outcome, Answer::ok);
    EXPECT_EQ(item.remark, "0.25 ohm (at most 0.3, rule 7); typed before: 3.5 ohm (at most 0.3, rule 7)");
}

TEST_F(ProcedureRunTest, what_is_looked_at_for_each_preset_is_asked_for_each)
{
    order_.presets.push_back(order_.presets.front());
    order_.presets.back().name = "night";
    auto procedure = asking_procedure();
    for (auto& step : procedure.steps) {
        if (!step.steps.empty()) {
            step.steps.push_back(procedure.steps[1]);
            step.steps.back().item = "quiet";
        }
    }
    std::vector<std::string> items;
    bool on_battery = false;
    for (const auto& step : run_steps(procedure, order_)) {
        if (asks(step.kind)) {
            items.push_back(step.source.item);
        }
        on_battery = step.sentence.find("on its battery") != std::string::npos ||
                     (on_battery && step.sentence.find("on mains") == std::string::npos);
        EXPECT_FALSE(on_battery && step.kind == StepKind::manual) << "the next preset's holds are on mains again";
    }
    EXPECT_THAT(items, ElementsAre("case", "earth resistance", "quiet, preset day", "quiet, preset night"));
}

/// Gives the unit back at one step, by one word and the list; what is left is an incomplete record.
void give_back_at(const verification::WorkOrder& order, const std::vector<RunStep>& steps, std::size_t at)
{
    // The steps before are cut off, so that this one comes first.
    BenchRun run(order, {}, {}, {steps.begin() + static_cast<std::ptrdiff_t>(at), steps.end()});
    run.stop(Ending::given_back);
    EXPECT_EQ(run.view().step, StepKind::hand_back);
    const auto list = hand_back_list(order, run.hand_back());
    EXPECT_THAT(list.front(), HasSubstr("therapy stopped"));
    EXPECT_THAT(list, testing::Contains(HasSubstr("plug out")));
    const bool mains_out = steps[at].source.power == "battery";
    EXPECT_EQ(testing::Value(list, testing::Contains(HasSubstr("mains lead in again"))), mains_out);
    run.set_returned(true, {});
    run.confirm();
    EXPECT_TRUE(run.ended());
    EXPECT_EQ(run.ending(), Ending::given_back);
    const auto log = run.log();
    EXPECT_EQ(log.restored, true);
    trace::Trace nothing;
    verification::Evidence evidence;
    evidence.order = &order;
    evidence.trace = &nothing;
    evidence.run = &log;
    EXPECT_EQ(verification::assess(evidence).verdict, metrology::Outcome::incomplete);
}

/// A procedure with every kind of step that there is.
verification::Procedure with_every_kind()
{
    auto procedure = asking_procedure();
    const auto periodic = records::load_procedure("periodic").meaning;
    procedure.steps.insert(procedure.steps.end() - 1, periodic.steps.begin(), periodic.steps.end() - 1);
    verification::ProcedureStep leak;
    leak.kind = verification::ProcedureStep::Kind::leak_test;
    procedure.steps.insert(procedure.steps.begin() + 1, leak);
    return procedure;
}

TEST_F(ProcedureRunTest, an_abort_at_every_step_of_every_shipped_procedure_goes_by_the_hand_back_list)
{
    std::vector<verification::Procedure> all{with_every_kind()};
    for (const auto& shipped : records::shipped_procedures()) {
        all.push_back(records::load_procedure(std::string(shipped.name)).meaning);
    }
    std::set<StepKind> kinds;
    for (const auto& procedure : all) {
        const auto steps = run_steps(procedure, order_);
        for (std::size_t at = 0; at + 1 < steps.size(); ++at) {
            SCOPED_TRACE(procedure.name + ", step " + std::to_string(at) + ": " + steps[at].sentence);
            kinds.insert(steps[at].kind);
            give_back_at(order_, steps, at);
        }
    }
    using enum StepKind;
    for (const auto kind : {confirm, check, value, gauge, leak, zero_before, plug, manual, automatic, ladder, strength,
                            stand_still, zero_after}) {
        EXPECT_TRUE(kinds.contains(kind)) << static_cast<int>(kind);
    }
}

TEST_F(ProcedureRunTest, the_mains_lead_is_asked_for_from_the_word_to_pull_it_until_it_is_in_again)
{
    begin_with(asking_procedure(), {{"case", Answer::ok, {}}, {"earth resistance", Answer::ok, {}}});
    judge_.judged = 3;
    to_zero();
    pressure_.hold(0.0, 6.0).hold(0.0, 2.0).toggles(40.0, -40.0).toggles(40.0, -40.0);
    EXPECT_FALSE(run_->hand_back().mains_out);
    pressure_.hold(0.0, 3.0);
    play();
    ASSERT_THAT(run_->view().sentence, HasSubstr("Take the mains lead out"));
    EXPECT_TRUE(run_->hand_back().mains_out);
    run_->confirm();
    pressure_.cycles(4, 40.0, -40.0).hold(0.0, 40.0);
    play();
    ASSERT_THAT(run_->view().sentence, HasSubstr("Put the mains lead in"));
    EXPECT_TRUE(run_->hand_back().mains_out);
    run_->confirm();
    EXPECT_FALSE(run_->hand_back().mains_out);
}

TEST(ShippedProcedures, say_nothing_that_a_translator_does_not_find)
{
    for (const auto& shipped : records::shipped_procedures()) {
        for (const auto& step : records::load_procedure(std::string(shipped.name)).meaning.steps) {
            EXPECT_TRUE(step.say.empty() || knows_procedure_words(step.say)) << step.say;
        }
    }
}

TEST(ShippedProcedures, stand_for_every_occasion_and_for_the_run_without_one)
{
    std::vector<std::string> names;
    for (const auto& shipped : records::shipped_procedures()) {
        names.emplace_back(shipped.name);
        EXPECT_EQ(records::load_procedure(names.back()).meaning.name, names.back());
    }
    EXPECT_THAT(names, ElementsAre("guided", "home-visit", "periodic", "pre-delivery"));
}

} // namespace zeroline::session
