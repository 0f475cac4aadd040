#include "tests/gui/session/played_run.hpp"

#include "gui/session/pressure_watch.hpp"

#include <gmock/gmock.h>

namespace {

using namespace zeroline::session;
using zeroline::signal::PhaseKind;

/// What is seen of a drawn pressure whose zero was read with the given noise.
std::vector<Dwell> seen(DrawnPressure pressure, double noise_cmH2O)
{
    PressureWatch watch;
    watch.begin(0.0, noise_cmH2O);
    std::vector<Dwell> all;
    for (const auto& sample : pressure.take()) {
        watch.push(sample);
        for (const auto& dwell : watch.take()) {
            if (dwell.kind != PhaseKind::pause) {
                all.push_back(dwell);
            }
        }
    }
    return all;
}

TEST(PressureWatch, sees_each_hold_with_its_level)
{
    const auto dwells = seen(DrawnPressure().hold(0.0, 2.0).toggles(40.0, -35.0), 0.02);
    ASSERT_EQ(dwells.size(), 2u);
    EXPECT_EQ(dwells[0].kind, PhaseKind::insufflation);
    EXPECT_NEAR(dwells[0].level_cmH2O, 40.0, 0.1);
    EXPECT_EQ(dwells[1].kind, PhaseKind::exsufflation);
    EXPECT_NEAR(dwells[1].level_cmH2O, -35.0, 0.1);
}

TEST(PressureWatch, sees_the_first_hold_also_where_the_plug_went_in_when_it_began_to_watch)
{
    // A quiet instrument: what the plug moves, and where the gas comes to rest, lie far outside its noise.
    for (const double noise : {0.001, 0.003, 0.005, 0.01, 0.02, 0.05}) {
        for (const double rest : {0.07, 0.12, -0.12}) {
            const auto dwells =
                seen(DrawnPressure().hold(0.6, 0.5).hold(rest, 2.5).hold(40.0, 3.0).hold(rest, 2.0), noise);
            ASSERT_EQ(dwells.size(), 1u) << noise << ' ' << rest;
            EXPECT_NEAR(dwells[0].level_cmH2O, 40.0, 0.1) << noise << ' ' << rest;
            EXPECT_NEAR(dwells[0].to_s - dwells[0].from_s, 3.0, 0.4) << noise << ' ' << rest;
        }
    }
}

TEST(PressureWatch, a_hold_that_was_under_way_when_it_began_to_watch_is_none)
{
    auto cut = DrawnPressure().hold(40.0, 3.0).hold(0.0, 2.0);
    auto samples = cut.take();
    PressureWatch watch;
    watch.begin(0.0, 0.02);
    for (std::size_t i = 100; i < samples.size(); ++i) {
        watch.push(samples[i]);
    }
    for (const auto& dwell : watch.take()) {
        EXPECT_EQ(dwell.kind, PhaseKind::pause);
    }
}

} // namespace
