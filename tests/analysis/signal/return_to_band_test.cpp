#include "analysis/signal/return_to_band.hpp"

#include "tests/analysis/signal/analytic.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

namespace zeroline::signal {
namespace {

analytic::Trace drawn(double rate_hz, double noise, const std::function<double(double)>& clean)
{
    std::mt19937_64 random(3);
    std::normal_distribution<double> normal(0.0, 1.0);
    analytic::Trace trace;
    for (int i = 0; i < static_cast<int>(2.0 * rate_hz); ++i) {
        trace.time_s.push_back(i / rate_hz);
        trace.pressure_cmH2O.push_back(clean(i / rate_hz) + noise * normal(random));
    }
    return trace;
}

ReturnToBand of(const analytic::Trace& trace, double noise, Band band)
{
    return return_to_band(trace.samples(), blocks_of(trace.pressure_cmH2O), {0.1, 1.9}, band, 0.1, noise);
}

double release(double time_s) { return time_s < 0.1 ? -40.0 : -40.0 * std::exp(-(time_s - 0.1) / 0.05); }

TEST(ReturnToBand, OfAnExponentialReleaseIsWhereItEntersTheBand)
{
    for (const double rate : {100.0, 250.0, 1000.0}) {
        for (const double half : {1.0, 2.0}) {
            const auto found = of(drawn(rate, 0.1, release), 0.1, {0.0, half, 0.2});
            ASSERT_TRUE(found.returned);
            const double u_s = std::hypot(found.entry.noise_u_s, found.entry.sampling_u_s);
            EXPECT_NEAR(found.entry.time_s, 0.1 + 0.05 * std::log(40.0 / half), std::max(0.003, 3.0 * u_s)) << rate;
            EXPECT_GT(found.slope_cmH2O_per_s, 0.0);
        }
    }
}

// A band of 1 cmH2O about noise of 0.5: single samples leave it all the time, the local level does not.
TEST(ReturnToBand, NoiseThatLeavesTheBandIsNoExit)
{
    for (const double rate : {250.0, 1000.0}) {
        const auto found = of(drawn(rate, 0.5, release), 0.5, {0.0, 1.0, 0.3});
        ASSERT_TRUE(found.returned) << rate;
        EXPECT_LT(found.entry.time_s, 0.4) << rate;
    }
}

TEST(ReturnToBand, AnExitThatLastsCountsAShortOneDoesNot)
{
    for (const auto& [length_s, counts] : {std::pair{0.01, false}, std::pair{0.1, true}}) {
        const auto swing = [&, length = length_s](double t) { return t > 1.0 && t < 1.0 + length ? 4.0 : release(t); };
        const auto found = of(drawn(1000.0, 0.05, swing), 0.05, {0.0, 2.0, 0.2});
        ASSERT_TRUE(found.returned);
        EXPECT_EQ(found.entry.time_s > 0.9, counts) << length_s;
    }
}

TEST(ReturnToBand, NeverWithinIsNotReturned)
{
    const auto found = of(drawn(250.0, 0.05, [](double) { return 3.0; }), 0.05, {0.0, 2.0, 0.2});
    EXPECT_FALSE(found.returned);
}

} // namespace
} // namespace zeroline::signal
