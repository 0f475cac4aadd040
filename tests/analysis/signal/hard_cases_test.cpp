#include "analysis/signal/phases.hpp"

#include "tests/analysis/signal/analytic.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

// What a real trace may hold, all of it handled, none of it mistaken for a phase (docs/method.md, the signal).

namespace zeroline::signal {
namespace {

using analytic::CleanPressure;
using analytic::Segment;
using analytic::Shape;
using analytic::Trace;

constexpr PhaseKind kIns = PhaseKind::insufflation;
constexpr PhaseKind kExs = PhaseKind::exsufflation;
constexpr PhaseKind kPause = PhaseKind::pause;

struct Part {
    PhaseKind kind;
    double level_cmH2O;
    double length_s;
};

CleanPressure of_parts(const std::vector<Part>& parts, analytic::EdgeForm edge = {Shape::exponential, 0.1, 0.7})
{
    std::vector<Segment> segments;
    double time_s = 0.0;
    for (const Part& part : parts) {
        segments.push_back({part.kind, part.level_cmH2O, time_s, edge});
        time_s += part.length_s;
    }
    return {segments, time_s};
}

Trace taken(const CleanPressure& pressure, double rate_hz = 250.0, std::uint64_t seed = 1)
{
    std::mt19937_64 random(seed);
    return analytic::sampled(pressure, rate_hz, {}, random);
}

std::vector<PhaseKind> kinds_of(const std::vector<Phase>& phases)
{
    std::vector<PhaseKind> kinds;
    for (const Phase& phase : phases) {
        kinds.push_back(phase.kind);
    }
    return kinds;
}

std::vector<PhaseKind> kinds_of(const std::vector<Part>& parts)
{
    std::vector<PhaseKind> kinds;
    for (const Part& part : parts) {
        kinds.push_back(part.kind);
    }
    return kinds;
}

void expect_as_made(const std::vector<Part>& parts, const std::vector<Phase>& phases, double within_cmH2O = 0.1)
{
    ASSERT_EQ(kinds_of(phases), kinds_of(parts));
    for (std::size_t k = 1; k + 1 < parts.size(); ++k) {
        EXPECT_NEAR(phases[k].plateau->value_cmH2O, parts[k].level_cmH2O, within_cmH2O) << k;
        EXPECT_NEAR(*phases[k].duration_s(), parts[k].length_s, 0.02) << k;
    }
}

TEST(HardCases, UnequalPressuresRestsSeveralSeriesAndALowerFirstCycle)
{
    const std::vector<Part> parts{{kPause, 0, 2},   {kIns, 18, 1.8},  {kExs, -30, 1.5}, {kPause, 0, 1.2},
                                  {kIns, 25, 1.5},  {kExs, -45, 1.5}, {kPause, 0, 5},   {kIns, 25, 1.5},
                                  {kExs, -45, 1.5}, {kPause, 0, 1.2}, {kIns, 25, 1.5},  {kIns, 25, 0.8},
                                  {kExs, -45, 1.5}, {kPause, 0, 2}};
    std::vector<Part> seen = parts;
    seen[10].length_s += seen[11].length_s; // nothing parts two of one level
    seen.erase(seen.begin() + 11);
    expect_as_made(seen, measure(taken(of_parts(parts)).samples(), {}));
}

TEST(HardCases, ManualTogglingInAnyOrderAndLength)
{
    const std::vector<Part> parts{{kPause, 0, 2},   {kExs, -40, 0.7}, {kIns, 40, 3.1},  {kPause, 0, 0.6},
                                  {kIns, 40, 0.5},  {kPause, 0, 2.2}, {kExs, -40, 4.8}, {kPause, 0, 0.9},
                                  {kExs, -40, 0.6}, {kPause, 0, 2}};
    expect_as_made(parts, measure(taken(of_parts(parts)).samples(), {}));
}

TEST(HardCases, AFirstEdgeOfSlowStartComesAtTheSameTimeHoweverLateTheTraceBegins)
{
    const auto onset_after = [](double rest_s) {
        const auto pressure =
            of_parts({{kPause, 0, rest_s}, {kIns, 30, 2}, {kExs, -30, 2}, {kPause, 0, 2}}, {Shape::gaussian, 0.3, 0.7});
        return measure(taken(pressure).samples(), {}).at(1).entering->onset.time_s - rest_s;
    };
    EXPECT_NEAR(onset_after(1.0), onset_after(8.0), 0.003);
}

TEST(HardCases, ReversedOrderIsMeasuredAsItIs)
{
    const std::vector<Part> parts{{kPause, 0, 2},   {kExs, -40, 1.5}, {kIns, 40, 1.5}, {kPause, 0, 1},
                                  {kExs, -40, 1.5}, {kIns, 40, 1.5},  {kPause, 0, 2}};
    expect_as_made(parts, measure(taken(of_parts(parts)).samples(), {}));
}

TEST(HardCases, APauseThatIsNotZero)
{
    for (const double rest : {3.0, -3.0}) {
        const std::vector<Part> parts{{kPause, rest, 2}, {kIns, 20, 1.5},  {kExs, -20, 1.5}, {kPause, rest, 1.5},
                                      {kIns, 20, 1.5},   {kExs, -20, 1.5}, {kPause, rest, 2}};
        const auto phases = measure(taken(of_parts(parts)).samples(), {});
        expect_as_made(parts, phases);
        EXPECT_FALSE(phases[3].returned) << "never within 2 cmH2O of zero";
        MeasureOptions prescribed;
        prescribed.pause_level_cmH2O = rest;
        EXPECT_TRUE(measure(taken(of_parts(parts)).samples(), prescribed)[3].returned);
    }
}

// Reduced flow: the rise is longer than the pause before it, whose first bounds reach to the rise's middle.
TEST(HardCases, AShortPauseBeforeASlowRiseIsReadAtRest)
{
    for (const double rise_s : {0.4, 0.55, 0.7}) {
        std::vector<Segment> segments{{kPause, 0.0, 0.0, {Shape::exponential, 0.06}}};
        double time_s = 2.0;
        const auto add = [&](PhaseKind kind, double level_cmH2O, double length_s, analytic::EdgeForm edge) {
            segments.push_back({kind, level_cmH2O, time_s, edge});
            time_s += length_s;
        };
        for (int cycle = 0; cycle < 4; ++cycle) {
            add(kIns, 30.0, 2.0, {Shape::ramp, rise_s});
            add(kExs, -30.0, 2.0, {Shape::exponential, 0.06});
            add(kPause, 0.0, cycle == 3 ? 2.0 : 0.5, {Shape::exponential, 0.06});
        }
        const auto phases = measure(taken({segments, time_s}).samples(), {});
        ASSERT_EQ(phases.size(), 13U);
        for (const std::size_t k : {3U, 6U, 9U}) {
            EXPECT_NEAR(phases[k].plateau->value_cmH2O, 0.0, 0.2) << rise_s << ", phase " << k;
            EXPECT_NEAR(*phases[k].duration_s(), 0.5, 0.01) << rise_s << ", phase " << k;
        }
    }
}

TEST(HardCases, AWrongUnitIsMeasuredAsItReads)
{
    const std::vector<Part> parts{{kPause, 0, 2},  {kIns, 40, 1.5},  {kExs, -40, 1.5}, {kPause, 0, 1.5},
                                  {kIns, 40, 1.5}, {kExs, -40, 1.5}, {kPause, 0, 2}};
    Trace trace = taken(of_parts(parts));
    constexpr double kPsi = 0.014223; // cmH2O in psi: 40 cmH2O read as 0.57
    for (double& pressure : trace.pressure_cmH2O) {
        pressure *= kPsi;
    }
    const auto phases = measure(trace.samples(), {});
    ASSERT_EQ(kinds_of(phases), kinds_of(parts));
    EXPECT_NEAR(phases[1].plateau->value_cmH2O, 0.569, 0.002);
    EXPECT_NEAR(*phases[1].duration_s(), 1.5, 0.01);
}

TEST(HardCases, TrappedGasIsNoPhaseAndNoRest)
{
    // Upon release a sealed volume comes back by 29 % of the step, time constant 1 s.
    const std::vector<Part> parts{{kPause, 0, 2},  {kIns, 40, 1.5},  {kExs, -40, 1.5}, {kPause, 0, 3},
                                  {kIns, 40, 1.5}, {kExs, -40, 1.5}, {kPause, 0, 3}};
    const auto pressure = of_parts(parts);
    Trace trace = taken(pressure);
    for (std::size_t i = 0; i < trace.time_s.size(); ++i) {
        for (const std::size_t k : {3U, 6U}) {
            const double since = trace.time_s[i] - pressure.segments()[k].start_s;
            const bool within = since > 0.0 && (k == 6 || trace.time_s[i] < pressure.segments()[k + 1].start_s);
            trace.pressure_cmH2O[i] -= within ? 0.15 * 40.0 * (std::exp(-since) - std::exp(-since / 0.045)) : 0.0;
        }
    }
    const auto phases = measure(trace.samples(), {});
    ASSERT_EQ(kinds_of(phases), kinds_of(parts));
    EXPECT_NEAR(*phases[2].duration_s(), 1.5, 0.02);
    ASSERT_TRUE(phases[3].return_to_band);
    EXPECT_GT(phases[3].return_to_band->time_s - phases[3].start_s(), 0.8) << "6 cmH2O decay to 2 in 1.1 s";
}

TEST(HardCases, ATraceThatBeginsAndEndsInsideAPhaseMarksBothAsCut)
{
    const std::vector<Part> parts{{kIns, 40, 1.0}, {kExs, -40, 1.5}, {kPause, 0, 1}, {kIns, 40, 1.5}, {kExs, -40, 0.9}};
    const auto phases = measure(taken(of_parts(parts)).samples(), {});
    expect_as_made(parts, phases);
    EXPECT_TRUE(phases.front().cut_begin);
    EXPECT_TRUE(phases.back().cut_end);
    EXPECT_FALSE(phases.front().duration_s());
    EXPECT_FALSE(phases.back().duration_s());
    EXPECT_FALSE(phases[1].cut());
}

std::vector<Part> two_cycles()
{
    return {{kPause, 0, 2},  {kIns, 40, 1.5},  {kExs, -40, 1.5}, {kPause, 0, 1.5},
            {kIns, 40, 1.5}, {kExs, -40, 1.5}, {kPause, 0, 2}};
}

TEST(HardCases, ClippedPlateausAreMeasuredAsTheyRead)
{
    Trace trace = taken(of_parts(two_cycles()));
    for (double& pressure : trace.pressure_cmH2O) {
        pressure = std::clamp(pressure, -35.0, 35.0);
    }
    const auto phases = measure(trace.samples(), {});
    ASSERT_EQ(kinds_of(phases), kinds_of(two_cycles()));
    EXPECT_DOUBLE_EQ(phases[1].plateau->value_cmH2O, 35.0);
    EXPECT_NEAR(*phases[1].duration_s(), 1.5, 0.02);
}

TEST(HardCases, GapsAndUnequalSpacingChangeLittle)
{
    const auto pressure = of_parts(two_cycles());
    Trace whole = taken(pressure);
    std::mt19937_64 random(9);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    Trace torn;
    for (std::size_t i = 0; i < whole.time_s.size(); ++i) {
        const double time = whole.time_s[i];
        const bool in_gap = time > 2.9 && time < 3.05; // within a plateau
        if (!in_gap && unit(random) > 0.3) {
            torn.time_s.push_back(time + 1e-3 * unit(random));
            torn.pressure_cmH2O.push_back(pressure.at(torn.time_s.back()));
        }
    }
    expect_as_made(two_cycles(), measure(torn.samples(), {}));
}

TEST(HardCases, RingsOfAQuarterOnEveryEdgeAreNoPhases)
{
    for (const double edge_s : {0.03, 0.08, 0.15}) {
        const auto pressure = of_parts(two_cycles(), {Shape::second_order, edge_s, 0.4037});
        for (const double rate : {100.0, 250.0, 1000.0}) {
            const auto phases = measure(taken(pressure, rate).samples(), {});
            ASSERT_EQ(kinds_of(phases), kinds_of(two_cycles())) << edge_s << " s at " << rate << " Hz";
            EXPECT_NEAR(*phases[1].overshoot_percent, 25.0, rate < 200.0 && edge_s < 0.05 ? 4.0 : 1.5) << rate;
        }
    }
}

TEST(HardCases, NothingButAFlatLineOrNoiseHasNoPhases)
{
    const std::vector<Part> parts{{kPause, 0, 10}};
    for (const Phase& phase : measure(taken(of_parts(parts)).samples(), {})) {
        EXPECT_EQ(phase.kind, kPause);
    }
    EXPECT_TRUE(measure({}, {}).empty());
}

TEST(HardCases, WeakCyclesAreToldFromTheirPauses)
{
    for (const double pressure : {5.0, 12.0}) {
        std::vector<Part> parts = two_cycles();
        for (Part& part : parts) {
            part.level_cmH2O *= pressure / 40.0;
        }
        const auto phases = measure(taken(of_parts(parts)).samples(), {});
        expect_as_made(parts, phases, 0.05);
        ASSERT_TRUE(phases[3].return_to_band);
        const double truth = 0.1 / std::log(9.0) * std::log(pressure / 2.0); // exponential, 10-90 % in 0.1 s
        EXPECT_NEAR(phases[3].return_to_band->time_s - phases[3].start_s(), truth, 0.008) << pressure;
    }
}

// 30 ms at 100 Hz: a peak of the ring lasts three or four samples, and a straight line through five of them cuts it.
TEST(HardCases, AFastRingThatLeavesTheBandAgainReturnsWithItsLastPeak)
{
    for (const double pressure : {13.5, 42.0}) { // its first or second peak lies beyond 2 cmH2O, the next within
        std::vector<Part> parts = two_cycles();
        for (Part& part : parts) {
            part.level_cmH2O *= pressure / 40.0;
        }
        const auto clean = of_parts(parts, {Shape::second_order, 0.035, 0.4037});
        const auto truth = analytic::truth_of(clean);
        const double entry_s = analytic::true_band_entry(clean, truth[3].onset_s, truth[4].onset_s, 0.0, 2.0);
        for (std::uint64_t seed = 0; seed < 5; ++seed) {
            const auto phases = measure(taken(clean, 100.0, seed).samples(), {});
            ASSERT_TRUE(phases[3].return_to_band) << pressure;
            EXPECT_NEAR(phases[3].return_to_band->time_s, entry_s, 0.01) << pressure;
        }
    }
}

} // namespace
} // namespace zeroline::signal
