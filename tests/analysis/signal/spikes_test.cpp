#include "analysis/signal/spikes.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kFloor = 0.8;    // noise 0.1, plateaus of 40 cmH2O
constexpr std::size_t kReach = 6; // samples on each side that are looked at

std::vector<std::size_t> spikes_in(const std::vector<double>& pressure)
{
    const std::vector<double> time(pressure.size()); // no matter: spikes are told by their neighbours
    return ClearSamples({time, pressure}, kFloor).spikes();
}

using Numbers = std::vector<std::size_t>;

// From 0 to 40 cmH2O, `fast` samples of an exponential's time constant.
std::vector<double> edge(double fast, double overshoot_per_unit = 0.0)
{
    std::vector<double> pressure(20, 0.0);
    for (int i = 0; i < 40; ++i) {
        const double rise = 1.0 - std::exp(-i / fast);
        const double ring = overshoot_per_unit * std::exp(-i / (3.0 * fast)) * std::sin(i / fast);
        pressure.push_back(40.0 * (rise + ring));
    }
    return pressure;
}

TEST(Spikes, OneOnALevelIsFoundAloneInPairsAndInThrees)
{
    const std::vector<double> level(40, 40.0);
    EXPECT_TRUE(spikes_in(level).empty());
    for (const double size : {60.0, -60.0, 1.0}) {
        auto pressure = level;
        pressure[20] += size;
        EXPECT_EQ(spikes_in(pressure), (Numbers{20})) << size;
        pressure[21] += size;
        EXPECT_EQ(spikes_in(pressure), (Numbers{20, 21})) << "neighbours, " << size;
        pressure[21] -= 2.0 * size;
        EXPECT_EQ(spikes_in(pressure), (Numbers{20, 21})) << "neighbours of opposite sign, " << size;
        pressure[24] += size;
        EXPECT_EQ(spikes_in(pressure), (Numbers{20, 21, 24})) << size;
        pressure = level;
        pressure[20] = pressure[21] = pressure[22] += size;
        EXPECT_EQ(spikes_in(pressure), (Numbers{20, 21, 22})) << "three neighbours, " << size;
        pressure = level;
        pressure[20] = pressure[22] += size;
        EXPECT_EQ(spikes_in(pressure), (Numbers{20, 22})) << "what lies between two is none, " << size;
        pressure = level;
        pressure[20] = pressure[23] += size;
        pressure[21] = pressure[22] -= 0.02 * size; // and stand out a little farther
        EXPECT_EQ(spikes_in(pressure), (Numbers{20, 23})) << "nor are two that lie between two, " << size;
    }
}

TEST(Spikes, OneAtTheEndOfAnothersNeighbourhoodHidesItNot)
{
    for (const double fast : {2.0, 4.0}) {
        for (std::size_t first = 10; first < 30; ++first) {
            auto pressure = edge(fast);
            pressure[first] += 60.0;
            pressure[first + kReach] -= 60.0;
            EXPECT_EQ(spikes_in(pressure), (Numbers{first, first + kReach})) << fast;
        }
    }
}

TEST(Spikes, OneAnywhereOnAnEdgeIsFound)
{
    for (const double fast : {2.0, 4.0, 10.0}) {
        const auto clean = edge(fast);
        EXPECT_TRUE(spikes_in(clean).empty()) << fast;
        for (std::size_t at = 12; at < 40; ++at) {
            for (const double size : {60.0, -60.0}) {
                auto pressure = clean;
                pressure[at] += size;
                EXPECT_EQ(spikes_in(pressure), (Numbers{at})) << fast << ", " << size;
            }
        }
    }
}

TEST(Spikes, OvershootsAndRingsAreNone)
{
    for (const double fast : {1.5, 2.0, 4.0, 10.0}) {
        for (const double overshoot : {0.1, 0.3, 0.5}) {
            EXPECT_TRUE(spikes_in(edge(fast, overshoot)).empty()) << fast << ", " << overshoot;
        }
    }
}

TEST(Spikes, OscillationsAreNoneUpToAFifthOfTheSamplingRate)
{
    for (const double share : {0.01, 0.05, 0.11, 0.2}) {
        for (int turn = 0; turn < 8; ++turn) {
            std::vector<double> pressure;
            for (int i = 0; i < 60; ++i) {
                pressure.push_back(40.0 + 10.0 * std::sin(2.0 * std::numbers::pi * (share * i + turn / 8.0)));
            }
            auto found = spikes_in(pressure);
            // At the ends of a trace half a period of it may look like one: not looked at here.
            std::erase_if(found, [](std::size_t i) { return i < kReach || i + kReach >= 60; });
            EXPECT_EQ(found, Numbers{}) << share << ", " << turn;
        }
    }
}

// 28 Hz of 0.9 cmH2O at 200 Hz, with noise: the trough before the spike stands out a little, too.
TEST(Spikes, OneOnARippleTakesNoneOfItsTroughsWithIt)
{
    const std::vector<double> turn{39.47, 39.28, 39.76, 40.46, 40.82, 40.22, 39.34};
    std::vector<double> pressure;
    for (int k = 0; k < 6; ++k) {
        pressure.insert(pressure.end(), turn.begin(), turn.end());
    }
    EXPECT_TRUE(spikes_in(pressure).empty());
    const std::vector<double> troubled{39.47, 39.28,  39.76, 40.46, 40.82, 40.22, 39.34,
                                       39.08, -20.15, 40.48, 40.74, 40.13, 39.31, 39.35};
    std::copy(troubled.begin(), troubled.end(), pressure.begin() + 14);
    EXPECT_EQ(spikes_in(pressure), (Numbers{22}));
}

TEST(Spikes, TheFirstAndLastSampleOfATraceCanBeOnes)
{
    std::vector<double> pressure(20, 0.0);
    pressure.front() = 60.0;
    pressure.back() = -60.0;
    EXPECT_EQ(spikes_in(pressure), (Numbers{0, 19}));
}

} // namespace
} // namespace zeroline::signal
