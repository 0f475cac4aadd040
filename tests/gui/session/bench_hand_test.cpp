// Runs on a virtual bench that goes along with what the machine asks for, without a terminal and without waiting.

#include "tests/gui/session/played_run.hpp"

#include "fixtures/virtual_bench/simulation.hpp"
#include "gui/session/bench_hand.hpp"

#include <gmock/gmock.h>

namespace {

using namespace zeroline;
using namespace zeroline::session;
using metrology::Outcome;
using verification::SpanKind;

/// A run whose person thinks `thinks_s` before each word; the bench follows.
class Followed {
public:
    explicit Followed(verification::WorkOrder order, std::vector<std::string> faults = {}, double thinks_s = 1.0)
        : order_(std::move(order)), thinks_s_(thinks_s), samples_(instrument_), life_(settings_with(faults))
    {
        RunSettings settings;
        settings.wait_s = 30.0;
        settings.log.began = "2026-11-25T09:00:00+00:00";
        settings.log.origin = verification::Origin::simulated;
        run_.emplace(order_, settings, provisional_judge(samples_.raw(), order_, instrument_, house_));
        life_.act({virtual_bench::Action::Kind::open_to_air, 0.0, {}, 0}, 0.0);
        constexpr double longest_s = 1500.0;
        for (double now_s = 0.0; !run_->ended() && now_s < longest_s;) {
            now_s = take_reading();
            follow(now_s);
            answer(now_s);
        }
    }

    [[nodiscard]] const BenchRun& run() const { return *run_; }
    [[nodiscard]] verification::Assessment result() const
    {
        return provisional_judge(samples_.raw(), order_, instrument_, house_)(run_->log());
    }
    [[nodiscard]] int count(SpanKind kind) const
    {
        const auto& spans = run_->log().spans;
        return static_cast<int>(
            std::count_if(spans.begin(), spans.end(), [&](const auto& span) { return span.what == kind; }));
    }

private:
    virtual_bench::BenchSettings settings_with(const std::vector<std::string>& faults)
    {
        virtual_bench::BenchSettings settings;
        settings.order = order_;
        settings.instrument = instrument_;
        for (const auto& fault : faults) {
            settings.faults.push_back(virtual_bench::parse_fault(fault));
        }
        return settings;
    }
    double take_reading()
    {
        const auto one = life_.next().reading;
        if (!one.dropped) {
            serial::Reading reading;
            reading.arrival_s = one.arrival_s;
            reading.value = one.value;
            reading.count = one.count;
            if (const auto sample = samples_.push(reading)) {
                run_->push({&*sample, 1});
            }
        }
        run_->advance(one.arrival_s);
        return one.arrival_s;
    }
    void follow(double now_s)
    {
        for (const auto& action : hand_.next(run_->view())) {
            life_.follow(action, now_s);
        }
    }
    void answer(double now_s)
    {
        const auto view = run_->view();
        if (!view.can_confirm && !view.asks_hose_end) {
            asked_at_s_ = now_s;
        } else if (now_s - asked_at_s_ > thinks_s_) {
            asked_at_s_ = now_s;
            if (view.asks_hose_end) {
                return run_->go_on();
            }
            run_->set_displayed(as_prescribed());
            run_->set_returned(true, std::nullopt);
            run_->confirm();
        }
    }

    [[nodiscard]] std::vector<verification::Displayed> as_prescribed() const
    {
        std::vector<verification::Displayed> all;
        for (const auto& preset : order_.presets) {
            all.push_back({preset.name, preset.insufflation.pressure_cmH2O, preset.exsufflation.pressure_cmH2O,
                           verification::Shows::live});
        }
        return all;
    }

    verification::WorkOrder order_;
    double thinks_s_;
    trace::Instrument instrument_ = bench_transducer(100.0);
    verification::HouseProfile house_ = verification::HouseProfile::standard();
    LiveSamples samples_;
    virtual_bench::Simulation life_;
    std::optional<BenchRun> run_;
    BenchHand hand_;
    double asked_at_s_ = 0.0;
};

TEST(BenchHand, goes_along_with_a_person_who_takes_a_minute_for_every_word)
{
    const Followed followed(short_order(), {}, 60.0);
    EXPECT_EQ(followed.run().ending(), Ending::completed);
    EXPECT_EQ(followed.result().verdict, Outcome::pass);
    EXPECT_EQ(followed.run().log().spans.size(), 4u);
}

/// Asked about the hose end it stops at once: a hold that was asked for before is not done twice, with the wrong sign.
TEST(BenchHand, holds_on_in_turn_after_the_question_about_the_hose_end)
{
    for (const double thinks_s : {0.0, 1.0, 30.0}) {
        const Followed followed(short_order(), {"kinked-line=50"}, thinks_s);
        EXPECT_EQ(followed.run().ending(), Ending::completed) << thinks_s;
        EXPECT_FALSE(followed.result().critical) << thinks_s;
    }
}

/// In a run that goes on the last phase may only not have come yet: that is no phase lost in movement.
TEST(BenchHand, is_not_asked_about_the_hose_end_for_a_slow_valve_or_the_wrong_order)
{
    auto order = short_order();
    order.presets.front().insufflation.duration_s = 1.5;
    order.presets.front().exsufflation.duration_s = 1.5;
    order.presets.front().pause.duration_s = 2.0;
    for (const auto* fault : {"slow-swing=80", "reversed"}) {
        const Followed followed(order, {fault});
        for (const auto& finding : followed.result().findings) {
            EXPECT_NE(finding.code, "soft-hose-end") << fault << ": " << finding.text;
        }
        EXPECT_EQ(followed.result().verdict, Outcome::fail) << fault;
    }
}

TEST(BenchHand, dials_the_next_preset_when_it_is_asked_for)
{
    auto order = short_order();
    order.presets.push_back(order.presets.front());
    order.presets.back().name = "night";
    order.presets.back().insufflation.pressure_cmH2O = 25.0;
    const Followed followed(order);
    EXPECT_EQ(followed.run().ending(), Ending::completed);
    EXPECT_EQ(followed.result().verdict, Outcome::pass);
    EXPECT_EQ(followed.count(SpanKind::manual), 2);
    EXPECT_EQ(followed.count(SpanKind::automatic), 2);
}

TEST(BenchHand, rests_the_unit_when_its_duty_is_over)
{
    auto order = short_order();
    order.presets.front().insufflation.duration_s = 3.0;
    order.presets.front().exsufflation.duration_s = 3.0;
    order.presets.front().pause.duration_s = 3.0;
    order.cycles = 14;
    const Followed followed(order);
    EXPECT_EQ(followed.run().ending(), Ending::completed);
    EXPECT_EQ(followed.result().verdict, Outcome::pass);
    EXPECT_EQ(followed.count(SpanKind::automatic), 2);
}

TEST(BenchHand, starts_a_unit_again_that_has_stopped_by_itself_but_not_for_ever)
{
    const Followed followed(short_order(), {"trigger-on"});
    EXPECT_EQ(followed.result().verdict, Outcome::incomplete);
    EXPECT_LE(followed.count(SpanKind::automatic), 3);
}

TEST(BenchHand, over_pressure_stops_the_run_in_the_first_hold_by_hand)
{
    const Followed followed(short_order(), {"over-pressure"});
    EXPECT_EQ(followed.run().ending(), Ending::critical);
    EXPECT_EQ(followed.count(SpanKind::automatic), 0);
    const auto result = followed.result();
    EXPECT_TRUE(result.critical);
    EXPECT_EQ(result.verdict, Outcome::fail);
    EXPECT_EQ(result.cycles.size(), 1u);
}

TEST(BenchHand, breathing_stops_the_run)
{
    const Followed followed(short_order(), {"breathing"});
    EXPECT_EQ(followed.run().ending(), Ending::critical);
    EXPECT_EQ(followed.result().verdict, Outcome::incomplete);
}

TEST(BenchHand, swapped_ports_stop_the_run_after_the_holds_by_hand)
{
    const Followed followed(short_order(), {"swapped-ports"});
    EXPECT_EQ(followed.run().ending(), Ending::critical);
    EXPECT_EQ(followed.count(SpanKind::automatic), 0);
}

} // namespace
