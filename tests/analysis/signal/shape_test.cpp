#include "analysis/signal/shape.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <numbers>
#include <random>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kTwoPi = 2.0 * std::numbers::pi;

struct Made {
    std::vector<double> time_s;
    std::vector<double> pressure;
    Samples samples() const { return {time_s, pressure}; }
};

Made made(double rate_hz, double length_s, double noise, const std::function<double(double)>& clean)
{
    Made result;
    std::mt19937_64 random(11);
    std::normal_distribution<double> normal(0.0, 1.0);
    for (int i = 0; i < length_s * rate_hz; ++i) {
        result.time_s.push_back(100.0 + i / rate_hz);
        result.pressure.push_back(clean(i / rate_hz) + noise * normal(random));
    }
    return result;
}

TEST(Shape, NoiseIsReadThroughSlopesAndSpikes)
{
    Made trace = made(250.0, 4.0, 0.2, [](double t) { return 40.0 - 5.0 * t; });
    trace.pressure[100] += 60.0;
    EXPECT_NEAR(sample_noise(trace.samples()), 0.2, 0.02);
    EXPECT_EQ(sample_noise(trace.samples().part(0, 4)), 0.0);
}

TEST(Shape, HumIsTold50From60HertzAlsoWhereSamplingFoldsItBack)
{
    for (const double mains : {50.0, 60.0}) {
        for (const double rate : {80.0, 250.0, 1000.0}) {
            const Made trace =
                made(rate, 1.0, 0.05, [&](double t) { return 40.0 + 0.4 * std::sin(kTwoPi * mains * t); });
            const auto found = hum(trace.samples());
            ASSERT_TRUE(found) << mains << " at " << rate;
            EXPECT_EQ(found->mains_hz, mains) << rate;
            EXPECT_NEAR(found->amplitude_cmH2O, 0.4, 0.05) << mains << " at " << rate;
            EXPECT_LT(found->chance, 1e-3) << rate;
        }
    }
}

TEST(Shape, RingingComesBackWithFrequencyAmplitudeAndDecay)
{
    const Made after = made(
        1000.0, 0.5, 0.1, [](double t) { return 40.0 + 4.0 * std::exp(-t / 0.08) * std::sin(kTwoPi * 8.0 * t + 0.3); });
    const auto ring = ringing(after.samples(), 2.0, 60.0);
    ASSERT_TRUE(ring);
    EXPECT_NEAR(ring->frequency_hz, 8.0, 0.2);
    EXPECT_NEAR(ring->amplitude_cmH2O, 4.0, 0.3);
    EXPECT_NEAR(ring->time_constant_s, 0.08, 0.01);
    EXPECT_GT(ring->share, 0.9);
}

TEST(Shape, TrappedGasComesBackAsItsExponential)
{
    const Made pause = made(250.0, 2.0, 0.1, [](double t) { return 0.3 - 8.0 * std::exp(-t / 0.9); });
    const auto tail = exponential_tail(pause.samples());
    ASSERT_TRUE(tail);
    EXPECT_NEAR(tail->time_constant_s, 0.9, 0.03);
    EXPECT_NEAR(tail->amplitude_cmH2O, -8.0, 0.15);
    EXPECT_NEAR(tail->level_cmH2O, 0.3, 0.15);
    const Made flat = made(250.0, 2.0, 0.1, [](double) { return 0.0; });
    const auto none = exponential_tail(flat.samples());
    EXPECT_TRUE(!none || std::abs(none->amplitude_cmH2O) < 0.2);
    EXPECT_FALSE(exponential_tail(pause.samples().part(0, 50)));
}

} // namespace
} // namespace zeroline::signal
