#include "fixtures/physics/circuit.hpp"

#include "fixtures/physics/orifice.hpp"
#include "fixtures/physics/run.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace zeroline::physics {
namespace {

Unit still_unit(Family family, std::uint64_t seed)
{
    Unit unit = drawn_unit(family, drawn_settings(family, seed), seed);
    unit.circuit.blower.ripple_cmH2O = 0.0;
    unit.timer_sd_s = 0.0;
    return unit;
}

/// Greatest difference of the sensed pressures of two recordings of one run.
double farthest(const Recording& a, const Recording& b)
{
    double most = 0.0;
    for (double t = 0.0; t < 4.0; t += 0.0005)
        most = std::max(most, std::abs(a.sensed_at(t) - b.sensed_at(t)));
    return most;
}

// What goes in must be somewhere: in the hose, through the leak, or in the lung.
TEST(Circuit, gas_that_came_through_the_valve_is_in_the_hose_or_went_out_at_its_end)
{
    Unit unit = still_unit(Family::full, 3);
    unit.circuit.leak = 5.0;
    unit.circuit.lung.compliance_mL_per_cmH2O = 50.0;
    Circuit circuit(unit.circuit);
    for (const int side : {0, +1, -1, 0}) {
        circuit.demand({side, 40.0, unit.swing});
        for (int i = 0; i < 20000; ++i)
            circuit.step();
        EXPECT_NEAR(circuit.through_valve_mL(), circuit.held_mL() + circuit.through_end_mL(), 1e-6) << side;
    }
}

// The virtual bench's closed form of an orifice against the equations of the whole circuit: the unit holds the pressure
// at its own outlet, the hose's friction takes its part. The circuit counts half a piece of hose at each end.
TEST(Circuit, an_orifice_at_the_hose_end_leaves_what_the_closed_form_says)
{
    for (const double diameter_mm : {4.0, 8.0}) {
        Unit unit = still_unit(Family::full, 3);
        unit.circuit.leak = orifice_conductance(diameter_mm);
        Circuit circuit(unit.circuit);
        circuit.demand({+1, 40.0, unit.swing});
        for (int i = 0; i < 60000; ++i)
            circuit.step();
        const auto& hose = unit.circuit.hose;
        const double expected = pressure_at_orifice(circuit.at_block_cmH2O(), orifice_conductance(diameter_mm),
                                                    hose.friction_cmH2O_s_per_mL_m * hose.length_m);
        EXPECT_NEAR(circuit.at_end_cmH2O(), expected, 0.03 * expected) << diameter_mm;
    }
}

TEST(Circuit, halving_the_step_hardly_moves_the_pressure_and_halves_its_error)
{
    for (const Family family : {Family::full, Family::kinked, Family::shelf}) {
        const Unit unit = still_unit(family, 5);
        const auto finest = run_cycles(unit, 1, 0.0, 0.5, Circuit::kStep_s / 8.0).recording;
        const double whole = farthest(run_cycles(unit, 1, 0.0, 0.5).recording, finest);
        const double half = farthest(run_cycles(unit, 1, 0.0, 0.5, Circuit::kStep_s / 2.0).recording, finest);
        EXPECT_LT(whole, 1.0) << word_of(family); // on edges of 1000 cmH2O/s: under a millisecond
        EXPECT_LT(half, 0.75 * whole) << word_of(family);
    }
}

TEST(Circuit, plateaus_of_every_family_stand_where_they_are_set_and_pauses_at_rest)
{
    for (const Family family : all_families())
        for (std::uint64_t seed = 1; seed <= 3; ++seed) {
            const Unit unit = drawn_unit(family, drawn_settings(family, seed), seed);
            const auto run = run_cycles(unit, 1, 0.0, 1.5);
            const auto at_the_end_of = [&](std::size_t k) {
                return run.recording.sensed_at(run.asked.at(k).start_s - 0.01);
            };
            const double swings = 2.5 + 2.0 * unit.circuit.oscillation_cmH2O;
            EXPECT_NEAR(at_the_end_of(1), 0.0, 0.1) << word_of(family);
            EXPECT_NEAR(at_the_end_of(2), unit.set.insufflation_cmH2O, swings) << word_of(family) << seed;
            EXPECT_NEAR(at_the_end_of(3), -unit.set.exsufflation_cmH2O, swings) << word_of(family) << seed;
        }
}

TEST(Circuit, the_same_seed_gives_the_same_pressures_and_another_seed_others)
{
    const auto once = run_cycles(drawn_unit(Family::full, {}, 7), 1, 0.0, 0.5);
    const auto again = run_cycles(drawn_unit(Family::full, {}, 7), 1, 0.0, 0.5);
    const auto other = run_cycles(drawn_unit(Family::full, {}, 8), 1, 0.0, 0.5);
    EXPECT_EQ(once.recording.sensed_cmH2O, again.recording.sensed_cmH2O);
    EXPECT_GT(farthest(once.recording, other.recording), 0.5);
}

// A loop that sums up its error while a limit of flow keeps it from acting overshoots cycle after cycle.
TEST(Circuit, a_slow_ramp_does_not_wind_the_loop_up)
{
    const Unit unit = drawn_unit(Family::gentle, drawn_settings(Family::gentle, 102), 102);
    const auto wound = run_cycles(unit, 4, 0.0, 1.0);
    for (const std::size_t k : {std::size_t{2}, std::size_t{5}, std::size_t{8}, std::size_t{11}})
        EXPECT_NEAR(wound.recording.sensed_at(wound.asked.at(k).start_s - 0.01), unit.set.insufflation_cmH2O, 1.0) << k;
}

/// Share of the rise that is made so long after it was asked for.
double made(const physics::Run& run, const Unit& unit, double after_s)
{
    return run.recording.sensed_at(run.asked.at(1).start_s + after_s) / unit.set.insufflation_cmH2O;
}

TEST(Families, a_shelf_stands_still_at_about_31_percent)
{
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        Unit unit = still_unit(Family::shelf, seed);
        unit.rise.halt_s = 0.12;
        const auto run = run_cycles(unit, 1, 0.0, 0.5);
        const double halts_s = 0.6 * unit.rise.travel_s + 0.08;
        EXPECT_NEAR(made(run, unit, halts_s), 0.32, 0.04) << seed;
        EXPECT_NEAR(made(run, unit, halts_s + 0.02), made(run, unit, halts_s), 0.02) << seed;
    }
}

TEST(Families, a_gentle_rise_takes_a_quarter_to_seven_tenths_of_a_second)
{
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        const Unit unit = still_unit(Family::gentle, seed);
        const auto run = run_cycles(unit, 1, 0.0, 0.5);
        EXPECT_LT(made(run, unit, 0.12), 0.65) << seed;
        EXPECT_GT(made(run, unit, 0.85), 0.93) << seed;
    }
}

TEST(Families, a_lung_makes_the_rise_slow_and_breathes_at_rest)
{
    Unit unit = still_unit(Family::full, 4);
    const auto plugged = run_cycles(unit, 1, 0.0, 3.0);
    unit.circuit.lung = {50.0, 0.01, 4.0, 0.3, 0.0};
    const auto breathing = run_cycles(unit, 1, 0.0, 3.0);
    EXPECT_LT(made(breathing, unit, 0.25), made(plugged, unit, 0.25) - 0.1);
    const auto& rest = breathing.recording.sensed_cmH2O;
    const auto [low, high] = std::minmax_element(rest.begin() + 10000, rest.begin() + 60000);
    EXPECT_GT(static_cast<double>(*high - *low), 0.05);
}

} // namespace
} // namespace zeroline::physics
