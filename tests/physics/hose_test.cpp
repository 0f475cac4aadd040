#include "fixtures/physics/hose.hpp"

#include "fixtures/physics/gas.hpp"
#include "fixtures/physics/lung.hpp"
#include "fixtures/physics/sensing.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace zeroline::physics {
namespace {

constexpr double kStep_s = 1.0 / 20000.0;

HoseParameters test_hose()
{
    HoseParameters hose; // 1.8 m of 22 mm
    hose.wall_mL_per_cmH2O_m = 0.0;
    return hose;
}

/// The far end's pressure while the entrance is held at 1 cmH2O from t = 0 on.
std::vector<double> after_a_step(Hose& hose, double length_s)
{
    std::vector<double> end;
    hose.set_entrance(1.0);
    while (kStep_s * static_cast<double>(end.size()) < length_s) {
        hose.step_flows();
        hose.step_inner_nodes();
        hose.set_end(hose.end_cmH2O() + kStep_s * hose.end_inflow_mL_per_s() / hose.end_compliance());
        hose.set_entrance(1.0);
        end.push_back(hose.end_cmH2O());
    }
    return end;
}

/// Frequency of what swings about 1, from the rising crossings; what does not go down to 0.5 in between is none.
double frequency_about_one(const std::vector<double>& values)
{
    std::vector<double> crossings;
    bool low = false;
    for (std::size_t i = 0; i < values.size(); ++i) {
        low = low || values[i] < 0.5;
        if (!low || values[i] < 1.0)
            continue;
        crossings.push_back(static_cast<double>(i));
        low = false;
    }
    return (static_cast<double>(crossings.size()) - 1.0) / (kStep_s * (crossings.back() - crossings.front()));
}

double time_at(const std::vector<double>& values, double level)
{
    std::size_t i = 0;
    while (values[i] < level)
        ++i;
    return kStep_s * static_cast<double>(i + 1);
}

// A pipe closed at one end sounds at c / 4L (any textbook of acoustics; from memory): 344 / 7.2 = 47.8 Hz.
TEST(Hose, a_closed_hose_of_1_8_m_rings_at_its_quarter_wave)
{
    HoseParameters parameters = test_hose();
    parameters.friction_cmH2O_s_per_mL_m = 1e-4;
    Hose hose(parameters, 0.0, 0.0, 0.0, kStep_s);
    EXPECT_NEAR(frequency_about_one(after_a_step(hose, 0.4)), 344.0 / (4.0 * 1.8), 0.7);
}

// Boyle and Poisson: V / p and V / (1.4 p) with p = 1033 cmH2O; 684 mL of hose.
TEST(Hose, takes_up_the_adiabatic_volume_at_once_and_the_isothermal_one_later)
{
    EXPECT_NEAR(isothermal_compliance(tube_volume_mL(1.8, 0.022)), 0.66, 0.005);
    EXPECT_NEAR(adiabatic_compliance(tube_volume_mL(1.8, 0.022)), 0.473, 0.005);
    HoseParameters parameters = test_hose();
    parameters.friction_cmH2O_s_per_mL_m = 0.02; // no ringing
    Hose hose(parameters, 0.0, 0.0, 0.0, kStep_s);
    after_a_step(hose, 0.05);
    EXPECT_NEAR(hose.held_mL(), 0.473 + 0.05 * (0.66 - 0.473), 0.01);
    after_a_step(hose, 8.0);
    EXPECT_NEAR(hose.held_mL(), 0.66, 0.005);
}

// A capacity behind a resistance: 63.2 % after R C.
TEST(Hose, fills_through_a_filter_with_resistance_times_compliance)
{
    HoseParameters parameters = test_hose();
    parameters.heat_s = 1e6;
    const double filter = 0.2; // cmH2O s/mL
    Hose hose(parameters, 0.0, 0.0, filter, kStep_s);
    const double behind = adiabatic_compliance(tube_volume_mL(1.8, 0.022)) * (1.0 - 0.5 / parameters.pieces);
    EXPECT_NEAR(time_at(after_a_step(hose, 0.5), 0.632), filter * behind, 0.003);
}

// The same quarter wave for the sensing line: 344 / 1.2 = 287 Hz.
TEST(Sensing, a_line_of_0_3_m_rings_near_287_Hz)
{
    SensingParameters parameters;
    parameters.line_damping = 0.003;
    parameters.lag_s = 0.0;
    Sensing sensing(parameters, kStep_s);
    std::vector<double> seen;
    for (int i = 0; i < 2000; ++i) {
        sensing.step(1.0);
        seen.push_back(sensing.sensed_cmH2O());
    }
    EXPECT_NEAR(frequency_about_one(seen), 287.0, 4.0);
}

TEST(Sensing, a_lag_follows_a_step_by_63_percent_in_its_time)
{
    SensingParameters parameters;
    parameters.line_m = 0.05;
    parameters.line_damping = 0.7;
    parameters.lag_s = 0.05;
    Sensing sensing(parameters, kStep_s);
    std::vector<double> seen;
    for (int i = 0; i < 4000; ++i) {
        sensing.step(1.0);
        seen.push_back(sensing.sensed_cmH2O());
    }
    EXPECT_NEAR(time_at(seen, 0.632), 0.05, 0.001);
}

// One compartment: V = C p (1 - exp(-t / RC)), the usual model of respiratory mechanics (from memory).
TEST(Lung, a_passive_lung_fills_with_resistance_times_compliance)
{
    LungParameters parameters;
    parameters.compliance_mL_per_cmH2O = 50.0;
    parameters.resistance_cmH2O_s_per_mL = 0.01;
    Lung lung(parameters);
    std::vector<double> filled;
    for (int i = 0; i < 40000; ++i) {
        lung.step(20.0, kStep_s);
        filled.push_back(lung.volume_mL() / 1000.0); // of 50 mL/cmH2O x 20 cmH2O
    }
    EXPECT_NEAR(time_at(filled, 0.632), 0.5, 0.002);
    EXPECT_NEAR(filled.back(), 1.0, 0.02);
}

} // namespace
} // namespace zeroline::physics
