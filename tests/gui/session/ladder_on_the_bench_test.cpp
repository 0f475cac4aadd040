// A ladder on the virtual bench, its hand dialling what the run asks for, as fast as it computes: the lines of the
// result against the gain that the bench plays.

#include "analysis/verification/ladder.hpp"
#include "fixtures/virtual_bench/simulation.hpp"
#include "gui/records/procedure_file.hpp"
#include "gui/session/bench_hand.hpp"
#include "tests/gui/session/played_run.hpp"

#include <gmock/gmock.h>

#include <map>

namespace {

using namespace zeroline;
using namespace zeroline::session;
using testing::HasSubstr;

constexpr double kLongest_s = 600.0;

class LadderOnTheBench : public testing::Test {
protected:
    void SetUp() override
    {
        auto& preset = order_.presets.front();
        preset.insufflation.duration_s = preset.exsufflation.duration_s = preset.pause.duration_s = 1.0;
    }

    /// 20, 30, 40, the unequal pair, then 0.5 s and 2 s.
    void run(const std::vector<std::string>& faults)
    {
        auto procedure = records::load_procedure("guided").meaning;
        verification::ProcedureStep ladder;
        ladder.kind = verification::ProcedureStep::Kind::ladder;
        ladder.rise_cmH2O = 10.0;
        ladder.durations_s = {0.5, 2.0};
        procedure.steps.insert(procedure.steps.end() - 2, ladder);
        virtual_bench::BenchSettings settings;
        settings.order = order_;
        settings.instrument = instrument_;
        settings.seed = 5;
        for (const auto& fault : faults)
            settings.faults.push_back(virtual_bench::parse_fault(fault));
        simulation_.emplace(settings);
        simulation_->act({virtual_bench::Action::Kind::open_to_air, 0.0, {}, 0}, 0.0);
        RunSettings run_settings;
        run_settings.log.origin = verification::Origin::simulated;
        run_.emplace(order_, run_settings, provisional_judge(samples_.raw(), order_, instrument_, house_),
                     run_steps(procedure, order_));
        while (!run_->ended() && now_s_ < kLongest_s)
            step();
        for (auto& fit : verification::ladder_fits(result().judgements))
            lines_[fit.measurand] = fit;
    }

    void step()
    {
        const auto reading = simulation_->next().reading;
        now_s_ = reading.sample_s;
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
        if (view.step == StepKind::hand_back)
            run_->set_returned(true, std::nullopt);
        if (view.can_confirm)
            run_->confirm();
    }

    [[nodiscard]] verification::Assessment result() const
    {
        return provisional_judge(samples_.raw(), order_, instrument_, house_)(run_->log());
    }
    [[nodiscard]] double gain(const char* measurand) const { return lines_.at(measurand).gain; }

    verification::WorkOrder order_ = short_order();
    trace::Instrument instrument_ = bench_transducer();
    verification::HouseProfile house_ = verification::HouseProfile::standard();
    LiveSamples samples_{instrument_};
    std::optional<virtual_bench::Simulation> simulation_;
    std::optional<BenchRun> run_;
    BenchHand hand_;
    std::map<std::string, verification::LadderFit> lines_;
    std::string said_;
    double now_s_ = 0.0;
};

TEST_F(LadderOnTheBench, of_a_healthy_unit_follows_its_settings_and_is_dialled_back)
{
    run({});
    ASSERT_EQ(run_->ending(), Ending::completed) << said_;
    ASSERT_EQ(lines_.size(), 4U) << said_;
    for (const auto& [name, line] : lines_)
        EXPECT_NEAR(line.gain, 1.0, 0.03) << name;
    std::size_t settings = 0;
    for (const auto& span : run_->log().spans)
        settings += span.what == verification::SpanKind::ladder ? 1 : 0;
    EXPECT_EQ(settings, 6U) << said_;
    const auto panel = simulation_->panel();
    EXPECT_THAT(panel, HasSubstr("40"));
    EXPECT_THAT(panel, testing::Not(HasSubstr("20")));
}

TEST_F(LadderOnTheBench, finds_the_gain_of_a_weak_blower_and_of_one_timer)
{
    run({"weak-blower=8", "timer-one-phase=8"});
    ASSERT_EQ(lines_.size(), 4U) << said_;
    // Each healthy unit's own errors (docs/virtual-bench.md) come on top of what the fault plays.
    EXPECT_NEAR(gain("insufflation-pressure"), 0.92, 0.03);
    EXPECT_NEAR(gain("exsufflation-pressure"), 0.92, 0.03);
    EXPECT_NEAR(gain("insufflation-duration"), 1.08, 0.03);
    EXPECT_NEAR(gain("exsufflation-duration"), 1.0, 0.03);
}

} // namespace
