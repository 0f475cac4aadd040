// Leak test, instrument check and strength with an orifice on the virtual bench, its hand at the syringe and at the
// hose end, as fast as it computes: what stands in the result against what the bench plays.

#include "fixtures/physics/orifice.hpp"
#include "fixtures/physics/parameters.hpp"
#include "fixtures/virtual_bench/simulation.hpp"
#include "gui/records/procedure_file.hpp"
#include "gui/session/bench_hand.hpp"
#include "tests/gui/session/played_run.hpp"

#include <gmock/gmock.h>

#include <cmath>

namespace {

using namespace zeroline;
using namespace zeroline::session;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;
using verification::ProcedureStep;
using verification::SpanKind;

constexpr double kLongestTest_s = 600.0;
constexpr double kOrifice_mm = 8.0;

class SetUpOnTheBench : public testing::Test {
protected:
    void SetUp() override
    {
        auto& preset = order_.presets.front();
        preset.insufflation.duration_s = preset.exsufflation.duration_s = preset.pause.duration_s = 1.0;
        settings_.log.origin = verification::Origin::simulated;
        settings_.log.began = "2026-11-25T09:00:00+00:00";
        settings_.now = [] { return std::string("2026-11-25T09:00:00+00:00"); };
    }

    /// The guided run, with one more step: before the plug, or before zero again.
    static verification::Procedure with(ProcedureStep::Kind kind)
    {
        auto procedure = records::load_procedure("guided").meaning;
        ProcedureStep step;
        step.kind = kind;
        step.orifice = "plate 2";
        step.diameter_mm = kOrifice_mm;
        step.cycles = 3;
        const bool after = kind == ProcedureStep::Kind::strength;
        procedure.steps.insert(after ? procedure.steps.end() - 2 : procedure.steps.begin() + 3, step);
        return procedure;
    }

    void run(const verification::Procedure& procedure, const std::vector<std::string>& faults = {})
    {
        virtual_bench::BenchSettings bench;
        bench.order = order_;
        bench.instrument = instrument_;
        bench.seed = 5;
        for (const auto& fault : faults)
            bench.faults.push_back(virtual_bench::parse_fault(fault));
        simulation_.emplace(bench);
        simulation_->act({virtual_bench::Action::Kind::open_to_air, 0.0, {}, 0}, 0.0);
        run_.emplace(order_, settings_, provisional_judge(samples_.raw(), order_, instrument_, house_),
                     run_steps(procedure, order_));
        while (!run_->ended() && now_s_ < kLongestTest_s)
            step();
    }

    void step()
    {
        const auto reading = simulation_->next().reading;
        now_s_ = reading.sample_s;
        clean_cmH2O_ = reading.clean_cmH2O;
        serial::Reading read;
        read.arrival_s = reading.arrival_s;
        read.value = reading.value;
        read.count = reading.count;
        if (const auto sample = samples_.push(read))
            run_->push({&*sample, 1});
        run_->advance(reading.arrival_s);
        for (const auto& news : run_->take_news())
            said_ += news.text + "\n";
        const auto view = run_->view();
        for (const auto& action : hand_.next(view))
            simulation_->follow(action, now_s_);
        answer(view);
    }

    void answer(const RunView& view)
    {
        if (view.step == StepKind::hand_back)
            run_->set_returned(true, std::nullopt);
        if (view.step == StepKind::gauge)
            read_the_gauge(view);
        else if (view.can_go_on)
            go_on_with_leak_ ? run_->go_on() : run_->confirm();
        else if (view.can_confirm)
            run_->confirm();
    }

    /// A gauge that shows what there is, read once the pressure stands.
    void read_the_gauge(const RunView& view)
    {
        const bool there = view.press_cmH2O && std::fabs(clean_cmH2O_ - *view.press_cmH2O) < 2.0;
        still_since_s_ = there ? still_since_s_ : now_s_;
        if (there && now_s_ - still_since_s_ > 4.0) {
            run_->answer(std::round(clean_cmH2O_ * gauge_gain_ * 10.0) / 10.0, 0.1);
            still_since_s_ = now_s_;
        }
    }

    [[nodiscard]] verification::Assessment result() const
    {
        return provisional_judge(samples_.raw(), order_, instrument_, house_)(run_->log());
    }
    [[nodiscard]] std::vector<std::string> findings() const
    {
        std::vector<std::string> codes;
        for (const auto& finding : result().findings)
            codes.push_back(finding.code);
        return codes;
    }
    [[nodiscard]] std::size_t count(SpanKind kind) const
    {
        std::size_t count = 0;
        for (const auto& span : run_->log().spans)
            count += span.what == kind ? 1 : 0;
        return count;
    }
    void name_a_gauge() { settings_.second_gauge = verification::SecondGauge{"water column 2", "", 0.2}; }

    verification::WorkOrder order_ = short_order();
    trace::Instrument instrument_ = bench_transducer();
    verification::HouseProfile house_ = verification::HouseProfile::standard();
    RunSettings settings_;
    LiveSamples samples_{instrument_};
    std::optional<virtual_bench::Simulation> simulation_;
    std::optional<BenchRun> run_;
    BenchHand hand_;
    std::string said_;
    double now_s_ = 0.0, clean_cmH2O_ = 0.0, still_since_s_ = 0.0, gauge_gain_ = 1.0;
    bool go_on_with_leak_ = true;
};

TEST_F(SetUpOnTheBench, a_tight_one_keeps_its_pressure_and_the_run_goes_on_to_its_end)
{
    run(with(ProcedureStep::Kind::leak_test));
    ASSERT_EQ(run_->ending(), Ending::completed) << said_;
    EXPECT_EQ(count(SpanKind::leak_test), 2U);
    const auto seen = result();
    ASSERT_EQ(seen.leaks.size(), 2U);
    EXPECT_GT(seen.leaks.front().from_cmH2O, 35.0);
    EXPECT_LT(seen.leaks.back().from_cmH2O, -35.0);
    for (const auto& leak : seen.leaks)
        EXPECT_NEAR(leak.loss_cmH2O_s, 0.08, 0.03) << "0.2 % a second of 40 cmH2O (docs/virtual-bench.md)";
    EXPECT_EQ(seen.verdict, metrology::Outcome::pass) << said_;
    EXPECT_THAT(findings(), Not(Contains("set-up-leaks")));
}

TEST_F(SetUpOnTheBench, one_that_leaks_is_told_and_leaves_the_pressures_incomplete)
{
    run(with(ProcedureStep::Kind::leak_test), {"leaky-plug=15"});
    ASSERT_EQ(run_->ending(), Ending::completed) << said_;
    EXPECT_THAT(said_, HasSubstr("OUTSIDE the limit of 1 cmH2O/s"));
    EXPECT_THAT(findings(), Contains("set-up-leaks"));
    EXPECT_EQ(result().verdict, metrology::Outcome::incomplete) << "the unit is not blamed for its set-up";
}

TEST_F(SetUpOnTheBench, after_mending_the_leak_test_is_done_once_more)
{
    go_on_with_leak_ = false; // the leak stays: once more, and once more
    settings_.wait_s = 60.0;
    run(with(ProcedureStep::Kind::leak_test), {"leaky-plug=15"});
    EXPECT_GT(count(SpanKind::leak_test), 3U) << said_;
}

TEST_F(SetUpOnTheBench, the_instrument_is_held_against_a_second_gauge_and_the_check_is_kept)
{
    std::optional<verification::InstrumentCheck> kept;
    name_a_gauge();
    settings_.keep_check = [&](const verification::InstrumentCheck& check) {
        kept = check;
        return std::string();
    };
    run(with(ProcedureStep::Kind::instrument_check));
    ASSERT_EQ(run_->ending(), Ending::completed) << said_;
    ASSERT_TRUE(kept) << said_;
    ASSERT_EQ(kept->points.size(), 4U);
    EXPECT_TRUE(kept->simulated);
    EXPECT_EQ(kept->due, "2027-02-23");
    for (const auto& point : kept->points)
        EXPECT_NEAR(point.error_cmH2O(), 0.0, 0.4) << point.gauge_cmH2O;
    const auto item = run_->log().checklist.front();
    EXPECT_EQ(item.item, verification::kInstrumentItem);
    EXPECT_EQ(item.outcome, verification::ChecklistItem::Outcome::ok) << item.remark;
    EXPECT_EQ(result().verdict, metrology::Outcome::pass) << said_;
}

TEST_F(SetUpOnTheBench, an_instrument_that_reads_wrong_leaves_the_verdict_incomplete)
{
    name_a_gauge();
    gauge_gain_ = 1.1;
    run(with(ProcedureStep::Kind::instrument_check));
    EXPECT_THAT(said_, HasSubstr("The instrument is not in order"));
    EXPECT_EQ(result().verdict, metrology::Outcome::incomplete);
}

// By hand: p at the block 40 cmH2O, orifice 8 mm (k = 398 mL/s per sqrt(cmH2O)), hose 1.8 m with 1.2e-3 cmH2O s/mL m:
// sqrt(e) = -0.43 + sqrt(0.43^2 + 40) = 5.91, e = 34.9 cmH2O: 87 % are left.
TEST_F(SetUpOnTheBench, a_healthy_unit_keeps_under_flow_what_hose_and_orifice_leave)
{
    run(with(ProcedureStep::Kind::strength));
    ASSERT_EQ(run_->ending(), Ending::completed) << said_;
    const auto seen = result();
    ASSERT_EQ(seen.strength.size(), 2U) << said_;
    for (const auto& row : seen.strength) {
        EXPECT_EQ(row.cycles, 3) << row.phase;
        EXPECT_NEAR(row.share, 0.873, 0.01) << row.phase;
        EXPECT_LT(row.share_uncertainty, 0.03);
        EXPECT_NEAR(row.flow_L_min, 142.0, 4.0);
        EXPECT_FALSE(row.lost);
    }
    EXPECT_EQ(seen.verdict, metrology::Outcome::pass) << "what flows is not judged as a closed end";
    EXPECT_THAT(seen.not_tested, Not(Contains("strength-under-flow")));
}

TEST_F(SetUpOnTheBench, a_worn_blower_passes_at_the_closed_end_and_is_found_against_its_first_value)
{
    settings_.log.first_strength = verification::FirstStrength{"2024-05-02", "R-7", kOrifice_mm, 0.872, 0.874};
    run(with(ProcedureStep::Kind::strength), {"worn-blower=15"});
    const auto seen = result();
    ASSERT_EQ(seen.strength.size(), 2U) << said_;
    for (const auto& row : seen.strength)
        EXPECT_NEAR(row.lost.value_or(0.0), 0.15, 0.015) << row.phase;
    EXPECT_EQ(seen.verdict, metrology::Outcome::pass) << "the finding says it, no published limit does";
    EXPECT_THAT(findings(), Contains("strength-lost"));
}

TEST_F(SetUpOnTheBench, another_orifice_is_compared_with_nothing)
{
    settings_.log.first_strength = verification::FirstStrength{"2024-05-02", "R-7", 6.0, 0.95, 0.95};
    run(with(ProcedureStep::Kind::strength), {"worn-blower=15"});
    ASSERT_EQ(result().strength.size(), 2U) << said_;
    EXPECT_FALSE(result().strength.front().lost);
}

TEST_F(SetUpOnTheBench, without_a_second_gauge_the_check_can_only_be_left_out_with_a_reason)
{
    run_.emplace(order_, settings_, Judge{}, run_steps(with(ProcedureStep::Kind::instrument_check), order_));
    for (int i = 0; i < 3; ++i)
        run_->confirm();
    run_->skip("the line is taken"); // zero: nothing was read
    ASSERT_EQ(run_->view().step, StepKind::gauge);
    EXPECT_THAT(run_->view().sentence, HasSubstr("names no second gauge"));
    run_->answer(20.0, 0.1);
    ASSERT_EQ(run_->view().step, StepKind::gauge) << "there is nothing to type";
    run_->skip("no gauge at hand");
    EXPECT_EQ(run_->view().step, StepKind::plug);
    EXPECT_EQ(run_->log().checklist.front().remark, "not done: no gauge at hand");
}

TEST_F(SetUpOnTheBench, a_check_that_holds_is_not_asked_for_and_one_out_of_order_is_not_talked_away)
{
    using Answer = verification::ChecklistItem::Outcome;
    for (const auto known : {Answer::ok, Answer::not_ok}) {
        settings_.log.checklist = {{verification::kInstrumentItem, known, "of May"}};
        run_.emplace(order_, settings_, Judge{}, run_steps(with(ProcedureStep::Kind::instrument_check), order_));
        for (int i = 0; i < 3; ++i)
            run_->confirm();
        run_->skip("the line is taken");
        if (known == Answer::ok) {
            EXPECT_EQ(run_->view().step, StepKind::plug);
        } else {
            run_->skip("no gauge at hand");
            EXPECT_EQ(run_->log().checklist.front().outcome, Answer::not_ok);
            EXPECT_EQ(run_->log().checklist.front().remark, "not done: no gauge at hand; of May");
        }
    }
}

// The closed form of the bench against the differential equations of the circuit, with the orifice as its leak.
TEST(Orifice, passes_what_the_handbook_equation_says)
{
    // ISO 5167-1 with C 0.62 and d 8 mm, by hand: A 50.27 mm2, sqrt(2 x 3922.66 Pa / 1.2 kg/m3) = 80.86 m/s.
    EXPECT_NEAR(physics::orifice_conductance(8.0) * std::sqrt(40.0), 2520.0, 3.0);
    EXPECT_NEAR(physics::pressure_at_orifice(40.0, physics::orifice_conductance(8.0), 1.2e-3 * 1.8), 34.9, 0.1);
}

} // namespace
