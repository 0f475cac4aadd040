#include "analysis/signal/crossings.hpp"

#include "tests/analysis/signal/analytic.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

namespace zeroline::signal {
namespace {

analytic::Trace drawn(double rate_hz, double noise, std::uint64_t seed, const std::function<double(double)>& clean)
{
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal(0.0, noise);
    analytic::Trace trace;
    for (double time = 0.0; time < 1.0; time += 1.0 / rate_hz) {
        trace.time_s.push_back(time);
        trace.pressure_cmH2O.push_back(clean(time) + (noise > 0.0 ? normal(random) : 0.0));
    }
    return trace;
}

// From 0.4 s on, 40 cmH2O in 0.1 s.
double ramp(double time_s) { return 40.0 * std::min(1.0, std::max(0.0, (time_s - 0.4) / 0.1)); }

Transition of(const analytic::Trace& trace, double noise)
{
    const Edge edge(trace.samples(), {0.0, 40.0}, noise);
    const auto middle = sustained_middle(edge, 0);
    return transition_at(edge, middle.value());
}

TEST(Crossings, OfAStraightEdgeWithoutNoiseAreExact)
{
    for (const double rate : {100.0, 330.0, 1000.0}) {
        const auto edge = of(drawn(rate, 0.0, 1, ramp), 0.0);
        EXPECT_NEAR(edge.onset.time_s, 0.4, 1e-9) << rate;
        EXPECT_NEAR(edge.mid.time_s, 0.45, 1e-9) << rate;
        EXPECT_NEAR(*edge.time_10_90_s, 0.08, 1e-9) << rate;
        EXPECT_GT(edge.onset.sampling_u_s, 0.05 / rate) << "the bend between samples is not known";
    }
}

TEST(Crossings, AreNoLaterAndLessScatteredWhereNoiseDecidesWhichSampleIsLast)
{
    double sum = 0.0;
    double squares = 0.0;
    constexpr int kDraws = 200;
    for (int seed = 1; seed <= kDraws; ++seed) {
        const double off = of(drawn(1000.0, 0.8, static_cast<std::uint64_t>(seed), ramp), 0.8).mid.time_s - 0.45;
        sum += off;
        squares += off * off;
    }
    // Noise over slope is 2 ms, two intervals. Straight lines between neighbours scatter by as much.
    EXPECT_LT(std::abs(sum / kDraws), 1.5e-4);
    EXPECT_LT(std::sqrt(squares / kDraws), 1.0e-3);
}

TEST(Crossings, BesideAHaltTellThatTheyMayLieAnywhereInIt)
{
    // Halts at the middle for 40 ms: which sample is the first beyond it is noise.
    const auto halting = [](double t) { return t < 0.45 ? ramp(t) : std::max(20.0, ramp(t - 0.04)); };
    int covered = 0;
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        const auto edge = of(drawn(500.0, 0.1, seed, halting), 0.1);
        covered +=
            std::abs(edge.mid.time_s - 0.47) <= 2.0 * std::hypot(edge.mid.noise_u_s, edge.mid.sampling_u_s) ? 1 : 0;
    }
    EXPECT_GE(covered, 90) << "the middle of the halt";
}

TEST(Crossings, AVisitBeyondTheMiddleOfLessThan20MillisecondsIsNotTheEdge)
{
    const auto visit = [](double t) { return t > 0.2 && t < 0.215 ? 30.0 : ramp(t); };
    EXPECT_NEAR(of(drawn(1000.0, 0.0, 1, visit), 0.0).mid.time_s, 0.45, 1e-9);
}

TEST(Crossings, AnOtherReadingWidensTheUncertaintyByTheirDifference)
{
    Transition one;
    one.onset.time_s = 1.0;
    one.mid.time_s = 1.1;
    Transition other = one;
    other.onset.time_s = 1.010;
    EXPECT_EQ(widened(one, one).onset.sampling_u_s, 0.0);
    EXPECT_NEAR(widened(one, other).onset.sampling_u_s, 0.011 / std::sqrt(3.0), 1e-9);
    EXPECT_EQ(widened(one, other).onset.time_s, 1.0) << "the pressure as it is";
}

} // namespace
} // namespace zeroline::signal
