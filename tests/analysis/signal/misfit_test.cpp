#include "analysis/signal/misfit.hpp"

#include "analysis/signal/edge.hpp"
#include "analysis/signal/thinning.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

// Edges that bend more suddenly than a curve of few coefficients does: what the curve leaves of the samples puts its
// crossings right.

namespace zeroline::signal {
namespace {

constexpr double kStep_cmH2O = 40.0;

/// A ramp behind a first-order lag: closed form of its step response, time in lags.
double ramp_behind_lag(double lags)
{
    constexpr double kRamp = 3.4;
    const auto ramp = [](double t) { return t > 0.0 ? t - 1.0 + std::exp(-t) : 0.0; };
    return (ramp(lags) - ramp(lags - kRamp)) / kRamp;
}

double lags_at(double fraction)
{
    double low = 0.0, high = 40.0;
    for (int k = 0; k < 80; ++k) {
        const double middle = (low + high) / 2.0;
        (ramp_behind_lag(middle) < fraction ? low : high) = middle;
    }
    return low;
}

struct Errors {
    double onset_s, time_10_90_s, u_10_90_s;
};

Errors errors_of_one(double lag_s, double rate_hz, double noise_cmH2O, std::mt19937_64& random)
{
    std::normal_distribution<double> noise(0.0, noise_cmH2O);
    std::uniform_real_distribution<double> phase(0.0, 1.0 / rate_hz);
    OwnedSamples samples;
    for (double time_s = -1.0 + phase(random); time_s < 1.0; time_s += 1.0 / rate_hz) {
        samples.time_s.push_back(time_s);
        samples.pressure_cmH2O.push_back(kStep_cmH2O * ramp_behind_lag(time_s / lag_s) + noise(random));
    }
    const EdgeLevels levels{0.0, kStep_cmH2O};
    const auto mid = find_mid_crossing(samples.view(), levels, samples.size() / 2, noise_cmH2O);
    const Transition edge = measure_transition(samples.view(), levels, mid.value(), noise_cmH2O);
    const double t10 = lag_s * lags_at(0.1), t30 = lag_s * lags_at(0.3), t90 = lag_s * lags_at(0.9);
    return {edge.onset.time_s - (1.5 * t10 - 0.5 * t30), *edge.time_10_90_s - (t90 - t10), edge.time_10_90_u_s};
}

TEST(Misfit, of_a_ramp_behind_a_lag_puts_its_times_right)
{
    std::mt19937_64 random(7);
    double onset = 0.0, edge = 0.0;
    int covered = 0;
    constexpr int kDraws = 40;
    for (int k = 0; k < kDraws; ++k) {
        const Errors errors = errors_of_one(0.033, 500.0, 0.05, random);
        onset += errors.onset_s * errors.onset_s / kDraws;
        edge += errors.time_10_90_s * errors.time_10_90_s / kDraws;
        covered += std::abs(errors.time_10_90_s) <= 2.0 * errors.u_10_90_s ? 1 : 0;
    }
    EXPECT_LT(std::sqrt(onset), 0.25e-3);
    EXPECT_LT(std::sqrt(edge), 0.25e-3) << "by the curve alone: several times that";
    EXPECT_GE(covered, kDraws * 85 / 100);
}

TEST(Misfit, is_none_where_noise_explains_what_is_left)
{
    std::mt19937_64 random(1);
    std::normal_distribution<double> noise(0.0, 0.9e-3);
    Misfit misfit(1e-3);
    for (int k = 0; k < 60; ++k) {
        misfit.add(k / 60.0, noise(random));
    }
    EXPECT_EQ(misfit.about(0.1).value, 0.0);
    EXPECT_EQ(misfit.about(0.1).variance, 0.0);
}

TEST(Misfit, is_what_is_left_about_the_crossing_where_noise_is_far_smaller)
{
    Misfit misfit(1e-4);
    for (int k = 0; k < 60; ++k) {
        misfit.add(k / 60.0, k < 12 ? 0.01 : -0.01);
    }
    EXPECT_NEAR(misfit.about(0.1).value, 0.01, 1e-5);
    EXPECT_NEAR(misfit.about(0.5).value, -0.01, 1e-5);
    EXPECT_LT(std::sqrt(misfit.about(0.5).variance), 1e-4);
}

} // namespace
} // namespace zeroline::signal
