// The machine driven by the virtual bench's readings, without a terminal and without waiting.

#include "tests/gui/session/played_run.hpp"

#include "analysis/verification/work_order.hpp"

#include <gmock/gmock.h>

#include <cmath>

namespace {

using namespace zeroline;
using namespace zeroline::session;
using metrology::Outcome;
using testing::HasSubstr;

/// What a whole run comes to, played as fast as it computes.
class Played {
public:
    explicit Played(std::vector<std::string> faults, std::uint64_t seed = 1, int cycles = 3)
        : order_(short_order()), instrument_(bench_transducer()), samples_(instrument_)
    {
        order_.cycles = cycles;
        virtual_bench::BenchSettings settings;
        settings.order = order_;
        settings.instrument = instrument_;
        settings.seed = seed;
        for (const auto& fault : faults) {
            settings.faults.push_back(virtual_bench::parse_fault(fault));
        }
        play(virtual_bench::play(settings));
    }

    [[nodiscard]] const BenchRun& run() const { return *run_; }
    [[nodiscard]] verification::Assessment result() const
    {
        return provisional_judge(samples_.raw(), order_, instrument_, house_)(run_->log());
    }

private:
    void play(const std::vector<virtual_bench::SimulatedReading>& readings)
    {
        RunSettings settings;
        settings.wait_s = 30.0;
        settings.log.began = "2026-11-25T09:00:00+00:00";
        settings.log.origin = verification::Origin::simulated;
        run_.emplace(order_, settings, provisional_judge(samples_.raw(), order_, instrument_, house_));
        for (const auto& one : readings) {
            if (one.dropped) {
                continue;
            }
            serial::Reading reading;
            reading.arrival_s = one.arrival_s;
            reading.value = one.value;
            reading.count = one.count;
            if (const auto sample = samples_.push(reading)) {
                run_->push({&*sample, 1});
            }
            run_->advance(one.arrival_s);
            answer();
        }
        for (double t = 0.0; t < 200.0 && !run_->ended(); t += 1.0) {
            run_->advance(readings.back().arrival_s + t);
            answer();
        }
    }
    void answer()
    {
        const auto view = run_->view();
        if (view.step == StepKind::hand_back) {
            run_->set_displayed({{"day", 40.0, -40.0, verification::Shows::live}});
            run_->set_returned(true, std::nullopt);
        }
        if (view.can_go_on && view.can_confirm) {
            run_->go_on();
        } else if (view.can_confirm) {
            run_->confirm();
        }
    }

    verification::WorkOrder order_;
    trace::Instrument instrument_;
    verification::HouseProfile house_ = verification::HouseProfile::standard();
    LiveSamples samples_;
    std::optional<BenchRun> run_;
};

TEST(PlayedRun, a_healthy_unit_comes_to_a_pass_with_every_span)
{
    const Played played({});
    EXPECT_EQ(played.run().ending(), Ending::completed);
    EXPECT_EQ(played.run().log().spans.size(), 4u);
    EXPECT_EQ(played.result().verdict, Outcome::pass);
}

TEST(PlayedRun, enough_cycles_are_judged_when_the_machine_moves_on)
{
    const Played played({}, 3);
    const auto result = played.result();
    ASSERT_FALSE(result.judgements.empty());
    for (const auto& judgement : result.judgements) {
        if (judgement.measurand.ends_with("duration") || judgement.measurand == "pause-residual") {
            EXPECT_GE(judgement.n, 3) << judgement.measurand;
        }
    }
}

TEST(PlayedRun, manual_holds_are_seen_as_asked)
{
    const auto result = Played({}).result();
    EXPECT_THAT(result.not_tested, testing::Not(testing::Contains("signs")));
}

TEST(PlayedRun, over_pressure_stops_the_automatic_run_and_is_critical)
{
    const Played played({"over-pressure"});
    EXPECT_EQ(played.run().ending(), Ending::critical);
    const auto result = played.result();
    EXPECT_TRUE(result.critical);
    EXPECT_EQ(result.verdict, Outcome::fail);
}

TEST(PlayedRun, a_low_exsufflation_is_measured_to_the_end)
{
    const Played played({"low-exsufflation"});
    EXPECT_EQ(played.run().ending(), Ending::completed);
    EXPECT_EQ(played.result().verdict, Outcome::fail);
}

TEST(PlayedRun, missed_phases_do_not_hold_the_run_up_for_ever)
{
    const Played played({"missed-phase"});
    EXPECT_EQ(played.run().ending(), Ending::completed);
    EXPECT_EQ(played.result().verdict, Outcome::fail);
}

TEST(PlayedRun, a_zero_off_its_limit_leaves_the_verdict_incomplete)
{
    const Played played({"zero-offset"});
    EXPECT_EQ(played.run().ending(), Ending::completed);
    EXPECT_EQ(played.result().verdict, Outcome::incomplete);
}

/// A person connected after the zero was read: 15 breaths a minute, so far to either side; nobody toggles the unit.
TEST(PlayedRun, somebody_who_breathes_into_the_hose_at_the_manual_step_stops_the_run_as_breathing)
{
    for (const double amplitude_cmH2O : {0.9, 3.0, 6.0}) {
        const auto order = short_order();
        const auto instrument = bench_transducer();
        const auto house = verification::HouseProfile::standard();
        LiveSamples samples(instrument);
        RunSettings settings;
        settings.wait_s = 60.0;
        settings.log.began = "2026-11-25T09:00:00+00:00";
        BenchRun run(order, settings, provisional_judge(samples.raw(), order, instrument, house));
        for (int word = 0; word < 3; ++word) {
            run.confirm();
        }
        double connected_s = -1.0;
        for (std::int64_t i = 0; i < 60 * 250 && !run.stopping(); ++i) {
            serial::Reading reading;
            reading.arrival_s = static_cast<double>(i) / 250.0;
            reading.count = i;
            const bool plugged = run.view().step == StepKind::plug;
            connected_s = connected_s < 0.0 && plugged ? reading.arrival_s : connected_s;
            const double since_s = connected_s < 0.0 ? 0.0 : reading.arrival_s - connected_s;
            // What moves the run on to the holds is a short push of the bag; then the person breathes.
            const bool push = since_s > 0.5 && since_s < 1.2;
            const double breath = since_s > 1.5 ? amplitude_cmH2O * std::sin(0.25 * 6.283185 * (since_s - 1.5)) : 0.0;
            reading.value = breath + (push ? 2.5 : 0.0) + 0.03 * std::sin(0.7 * static_cast<double>(i));
            if (const auto sample = samples.push(reading)) {
                run.push({&*sample, 1});
            }
            run.advance(reading.arrival_s);
        }
        EXPECT_EQ(run.ending(), Ending::critical) << amplitude_cmH2O;
        ASSERT_TRUE(run.provisional());
        const auto& findings = run.provisional()->findings;
        ASSERT_FALSE(findings.empty()) << amplitude_cmH2O;
        EXPECT_EQ(findings.front().code, "breathing") << amplitude_cmH2O;
        EXPECT_LT(run.log().spans.back().to_s - connected_s, 20.0) << "seen within five breaths";
    }
}

} // namespace
