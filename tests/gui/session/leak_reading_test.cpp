#include "gui/session/leak_reading.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <numbers>

namespace zeroline::session {
namespace {

constexpr double kZero_cmH2O = 0.2;

std::optional<LeakRate> followed(double target_cmH2O, const std::function<double(double)>& pressure,
                                 double until_s = 30.0)
{
    LeakReading reading(target_cmH2O, kZero_cmH2O);
    for (double t = 0.0; t < until_s; t += 0.004) {
        if (const auto rate = reading.push({t, pressure(t) + kZero_cmH2O})) {
            return rate;
        }
    }
    return std::nullopt;
}

/// Nothing for 2 s, pressed within 1 s, then as `after` says.
std::function<double(double)> pressed(double level, const std::function<double(double)>& after)
{
    return [=](double t) { return t < 2.0 ? 0.0 : t < 3.0 ? level * (t - 2.0) : after(t - 3.0); };
}

TEST(LeakReading, a_steady_loss_is_its_rate_on_both_sides)
{
    for (const double sign : {1.0, -1.0}) {
        const auto rate =
            followed(sign * 40.0, pressed(sign * 40.0, [&](double t) { return sign * (40.0 - 0.5 * t); }));
        ASSERT_TRUE(rate);
        EXPECT_NEAR(rate->loss_cmH2O_s, 0.5, 1e-6);
        EXPECT_NEAR(rate->over_s, 7.0, 0.1);
        EXPECT_NEAR(rate->from_cmH2O, sign * 38.5, 0.5) << "what lies in the first seconds does not count";
    }
}

TEST(LeakReading, gas_that_cools_after_a_quick_press_is_no_leak)
{
    const auto rate = followed(40.0, pressed(40.8, [](double t) { return 40.0 + 0.8 * std::exp(-t); }));
    ASSERT_TRUE(rate);
    EXPECT_LT(rate->loss_cmH2O_s, 0.02) << "0.8 cmH2O over 10 s would be 0.08";
}

TEST(LeakReading, a_pressure_that_is_gone_before_the_time_is_up_is_not_waited_for)
{
    const auto rate = followed(40.0, pressed(40.0, [](double t) { return 40.0 * std::exp(-t / 0.5); }));
    ASSERT_TRUE(rate);
    EXPECT_GT(rate->loss_cmH2O_s, 20.0);
    EXPECT_LT(rate->over_s, 2.0);
}

TEST(LeakReading, what_is_never_pressed_and_the_other_sign_are_not_followed)
{
    EXPECT_FALSE(followed(40.0, [](double) { return 5.0; }));
    EXPECT_FALSE(followed(40.0, pressed(-40.0, [](double) { return -40.0; })));
}

TEST(LeakReading, a_second_stroke_of_the_syringe_begins_anew)
{
    const auto rate = followed(40.0, pressed(30.0, [](double t) { return t < 6.0 ? 30.0 : 40.0 - 0.1 * (t - 6.0); }));
    ASSERT_TRUE(rate);
    EXPECT_NEAR(rate->loss_cmH2O_s, 0.1, 1e-6);
}

// Boyle's law: dV = V dp / p. Standard atmosphere and cmH2O as NIST SP 811, appendix B.8, gives them; the hose is one
// of 1.8 m and 22 mm (common practice, no source).
TEST(LeakReading, gas_lost_is_that_of_boyles_law_in_the_hose_it_names)
{
    const double volume_mL = std::numbers::pi / 4.0 * 2.2 * 2.2 * 180.0;
    const double atmosphere_cmH2O = 101325.0 / 98.0665;
    EXPECT_NEAR((LeakRate{40.0, 7.0, 1.0, 0.0}).mL_min(), volume_mL / atmosphere_cmH2O * 60.0, 0.3);
}

} // namespace
} // namespace zeroline::session
