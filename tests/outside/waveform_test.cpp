// Waveforms whose figures are known in closed form, or documented elsewhere, sampled and measured as a trace would be.

#include "analysis/signal/phases.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <numbers>
#include <vector>

namespace zeroline::signal {
namespace {

/// A pressure commanded level after level; every step runs along the same unit step.
class Staircase {
public:
    explicit Staircase(std::function<double(double)> unit_step) : unit_step_(std::move(unit_step)) {}

    void hold(double level_cmH2O, double seconds)
    {
        steps_.push_back({end_s_, level_cmH2O - level_});
        level_ = level_cmH2O;
        end_s_ += seconds;
    }

    [[nodiscard]] std::vector<Phase> measured(double rate_hz) const
    {
        std::vector<double> time, pressure;
        for (double t = 0.3 / rate_hz; t < end_s_; t += 1.0 / rate_hz) {
            double sum = 0.0;
            for (const auto& step : steps_) {
                sum += t > step.at_s ? step.height * unit_step_(t - step.at_s) : 0.0;
            }
            time.push_back(t);
            pressure.push_back(sum);
        }
        MeasureOptions options;
        options.noise_cmH2O = 1e-3; // nothing is noisy here; a sensor's last digit
        return measure({time, pressure}, options);
    }

private:
    struct Step {
        double at_s, height;
    };
    std::function<double(double)> unit_step_;
    std::vector<Step> steps_;
    double level_ = 0.0, end_s_ = 0.0;
};

std::function<double(double)> first_order(double tau_s)
{
    return [tau_s](double t) { return 1.0 - std::exp(-t / tau_s); };
}

/// Natural frequency `omega` rad/s, damping below 1.
std::function<double(double)> second_order(double zeta, double omega)
{
    const double damped = std::sqrt(1.0 - zeta * zeta);
    return [=](double t) {
        return 1.0 - std::exp(-zeta * omega * t) *
                         (std::cos(damped * omega * t) + zeta / damped * std::sin(damped * omega * t));
    };
}

std::function<double(double)> ramp(double length_s)
{
    return [length_s](double t) { return std::min(1.0, t / length_s); };
}

// First-order transitions, +40 for 2 s, -40 for 3 s, 0 for 1 s: every middle comes tau ln 2 late, so the durations at
// 50 % are the commanded ones; 10 % to 90 % is tau ln 9 (closed forms).
TEST(FirstOrderCycle, has_the_commanded_durations_at_half_height_and_edges_of_ln_9)
{
    constexpr double kTau_s = 0.08;
    Staircase stairs(first_order(kTau_s));
    stairs.hold(0.0, 2.0);
    for (int cycle = 0; cycle < 2; ++cycle) {
        stairs.hold(40.0, 2.0);
        stairs.hold(-40.0, 3.0);
        stairs.hold(0.0, 1.0);
    }
    const auto phases = stairs.measured(1000.0);
    ASSERT_EQ(phases.size(), 7U);
    EXPECT_NEAR(*phases[1].mid_level_duration_s(), 2.0, 1e-4);
    EXPECT_NEAR(*phases[2].mid_level_duration_s(), 3.0, 1e-4);
    EXPECT_NEAR(*phases[3].mid_level_duration_s(), 1.0, 1e-4);
    for (std::size_t k = 1; k <= 4; ++k) {
        EXPECT_NEAR(*phases[k].entering->time_10_90_s, kTau_s * std::log(9.0), 2e-4) << k;
    }
    EXPECT_NEAR(phases[2].entering->mid.time_s, 4.0 + kTau_s * std::log(2.0), 1e-4);
    // -40 to within 2 of 0: tau ln 20, from the command on.
    ASSERT_TRUE(phases[3].return_to_band);
    EXPECT_NEAR(phases[3].return_to_band->time_s, 7.0 + kTau_s * std::log(20.0), 2e-3);
}

// A straight ramp: 10 % to 90 % is four fifths of it, and the 10/30 line starts where the ramp does (closed form).
TEST(TrapezoidCycle, begins_where_its_ramps_begin)
{
    Staircase stairs(ramp(0.3));
    stairs.hold(0.0, 2.0);
    stairs.hold(40.0, 2.0);
    stairs.hold(-40.0, 2.0);
    stairs.hold(0.0, 2.0);
    const auto phases = stairs.measured(250.0);
    ASSERT_EQ(phases.size(), 4U);
    EXPECT_NEAR(phases[2].entering->onset.time_s, 4.0, 2e-4);
    EXPECT_NEAR(*phases[2].duration_s(), 2.0, 3e-4);
    EXPECT_NEAR(*phases[2].mid_level_duration_s(), 2.0, 3e-4);
    EXPECT_NEAR(*phases[1].entering->time_10_90_s, 0.24, 1e-3);
    EXPECT_NEAR(phases[2].entering->mid.time_s, 4.15, 2e-4);
    // The foot of a slow ramp lies in the last quarter of the rest before it, which its first bounds end at 50 %.
    EXPECT_NEAR(phases[1].entering->onset.time_s, 2.0, 1e-3);
}

struct Damping {
    double zeta, overshoot_percent, time_10_90; ///< at a natural frequency of 1
};

class SecondOrder : public testing::TestWithParam<Damping> {};

// Overshoot exp(-pi zeta / sqrt(1 - zeta^2)), rise from the closed form (solved to ten digits elsewhere).
TEST_P(SecondOrder, overshoots_and_rises_as_the_closed_form_says)
{
    const auto& [zeta, overshoot, rise] = GetParam();
    constexpr double kOmega = 20.0;
    Staircase stairs(second_order(zeta, kOmega));
    stairs.hold(0.0, 2.0);
    stairs.hold(40.0, 4.0);
    stairs.hold(0.0, 4.0);
    const auto phases = stairs.measured(1000.0);
    ASSERT_EQ(phases.size(), 3U);
    EXPECT_NEAR(*phases[1].overshoot_percent, overshoot, 0.1);
    EXPECT_NEAR(*phases[1].entering->time_10_90_s, rise / kOmega, 0.01 * rise / kOmega);
    EXPECT_NEAR(phases[1].plateau->value_cmH2O, 40.0, 1e-3);
}

INSTANTIATE_TEST_SUITE_P(Dampings, SecondOrder,
                         testing::Values(Damping{0.5, 16.30335348, 1.63757295}, Damping{0.6, 9.47802248, 1.85405035},
                                         Damping{0.7, 4.59879103, 2.12620187}, Damping{0.8, 1.51646199, 2.46749263}));

// Source: the documented example of a general control library, H(s) = (8 s^2 + 18 s + 32) / (s^3 + 6 s^2 + 14 s + 24):
// final value 4/3, rise 0.2087, overshoot 26.5302 % on a coarse grid (26.543 on a fine one). By partial fractions:
// poles -4 and -1 +- i sqrt 5.
TEST(ThirdOrderExample, has_the_documented_rise_and_overshoot)
{
    // H(s)/s = (4/3)/s + r/(s + 4) + (a s + b)/((s + 1)^2 + 5); r = (8 s^2 + 18 s + 32)/(s (s^2 + 2 s + 6)) at s = -4.
    const double r = (8.0 * 16.0 - 18.0 * 4.0 + 32.0) / (-4.0 * (16.0 - 8.0 + 6.0));
    const double a = -4.0 / 3.0 - r; // the step begins at 0
    // Its derivative begins at 8: -4 r - a + b = 8, from s^2 H(s)/s at infinity.
    const double b = 8.0 + 4.0 * r + 2.0 * a;
    const double root = std::sqrt(5.0);
    const auto step = [=](double t) {
        const double swing = a * std::cos(root * t) + (b - a) / root * std::sin(root * t);
        return (4.0 / 3.0 + r * std::exp(-4.0 * t) + std::exp(-t) * swing) / (4.0 / 3.0);
    };
    Staircase stairs(step);
    stairs.hold(0.0, 3.0);
    stairs.hold(40.0, 30.0);
    stairs.hold(-40.0, 30.0); // back to 0 it would overshoot into a phase of the other sign
    const auto phases = stairs.measured(500.0);
    ASSERT_EQ(phases.size(), 3U);
    EXPECT_NEAR(*phases[1].entering->time_10_90_s, 0.2087, 0.0004);
    EXPECT_NEAR(*phases[1].overshoot_percent, 26.5302, 0.05);
}

} // namespace
} // namespace zeroline::signal
