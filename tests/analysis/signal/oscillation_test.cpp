#include "analysis/signal/oscillation.hpp"

#include "tests/analysis/signal/analytic.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace zeroline::signal {
namespace {

using analytic::CycleForm;
using analytic::Shape;

std::vector<Phase> measured(const CycleForm& form, double rate_hz, MeasureOptions options, std::uint64_t seed = 3)
{
    std::mt19937_64 random(seed);
    const auto trace = analytic::sampled(analytic::cycling(form), rate_hz, {}, random);
    return measure(trace.samples(), options);
}

CycleForm oscillating(double frequency_hz, double amplitude_cmH2O)
{
    CycleForm form;
    form.oscillation_hz = frequency_hz;
    form.oscillation_cmH2O = amplitude_cmH2O;
    return form;
}

TEST(Oscillation, FrequencyAndAmplitudeComeBackWithinTheirUncertainty)
{
    for (const double rate : {100.0, 250.0, 1000.0}) {
        for (const double frequency : {1.0, 2.3, 5.0, 11.0, 20.0}) {
            int seen = 0;
            for (const Phase& phase : measured(oscillating(frequency, 5.0), rate, {})) {
                if (phase.kind == PhaseKind::pause || phase.cut()) {
                    continue;
                }
                ASSERT_TRUE(phase.oscillation) << frequency << " Hz at " << rate;
                ++seen;
                EXPECT_NEAR(phase.oscillation->frequency_hz, frequency, 0.02 * frequency) << rate;
                EXPECT_NEAR(phase.oscillation->amplitude_cmH2O, 5.0, 0.15) << frequency << " Hz at " << rate;
                EXPECT_GT(phase.oscillation->amplitude_u_cmH2O, 0.0);
                EXPECT_LT(phase.oscillation->amplitude_u_cmH2O, 0.2);
                EXPECT_GT(phase.oscillation->frequency_u_hz, 0.0);
            }
            EXPECT_EQ(seen, 6) << frequency << " Hz at " << rate;
        }
    }
}

TEST(Oscillation, OneThatIsPrescribedAndAbsentHasAmplitudeZeroOneThatIsNotPrescribedNoValue)
{
    MeasureOptions prescribed;
    prescribed.expected_oscillation_hz = 10.0;
    for (const Phase& phase : measured({}, 250.0, prescribed)) {
        if (phase.kind != PhaseKind::pause && !phase.cut()) {
            ASSERT_TRUE(phase.oscillation);
            EXPECT_EQ(phase.oscillation->amplitude_cmH2O, 0.0);
        }
    }
    for (const Phase& phase : measured({}, 250.0, {})) {
        EXPECT_FALSE(phase.oscillation);
    }
    // Six samples in 10 periods of 10 Hz say nothing about it.
    for (const Phase& phase : measured({}, 20.0, prescribed)) {
        EXPECT_FALSE(phase.oscillation);
    }
}

TEST(Oscillation, AWeakOneCountsWhereItIsPrescribed)
{
    MeasureOptions prescribed;
    prescribed.expected_oscillation_hz = 10.0;
    for (const Phase& phase : measured(oscillating(10.0, 0.15), 250.0, prescribed)) {
        if (phase.kind != PhaseKind::pause && !phase.cut()) {
            ASSERT_TRUE(phase.oscillation);
            EXPECT_NEAR(phase.oscillation->amplitude_cmH2O, 0.15, 0.04);
        }
    }
}

TEST(Oscillation, ARingThatDiesAwayIsNone)
{
    CycleForm form;
    form.form = {Shape::second_order, 0.1, 0.2};
    for (const Phase& phase : measured(form, 250.0, {})) {
        EXPECT_FALSE(phase.oscillation);
    }
}

TEST(Oscillation, ThePlateauIsTheMeanOverWholePeriods)
{
    // 1 Hz in phases of 1.5 s: a mean from 50 to 90 % would be up to 4 cmH2O off.
    const CycleForm form = oscillating(1.0, 10.0);
    const auto truth = analytic::truth_of(analytic::cycling(form));
    const auto phases = measured(form, 250.0, {});
    ASSERT_EQ(phases.size(), truth.size());
    for (std::size_t k = 1; k + 1 < phases.size(); ++k) {
        EXPECT_NEAR(phases[k].plateau->value_cmH2O, truth[k].level_cmH2O, 0.05) << k;
        if (phases[k].kind != PhaseKind::pause) {
            EXPECT_LT(*phases[k].overshoot_percent, 3.0) << "the oscillation is no overshoot";
            EXPECT_GT(std::abs(*phases[k].peak_cmH2O), 49.0) << "but a peak it is";
        }
    }
}

// 30 to 90 % of the phases hold hardly a period, on edges some of which still settle there: a phase alone might as well
// bend. The level is the mean of the clean pressure without the oscillation.
TEST(Oscillation, ASlowOneThatNoPhaseShowsAloneIsFoundInAllTogether)
{
    for (const double rate : {100.0, 250.0, 1000.0}) {
        for (const auto& [frequency, edge] : {std::pair{1.05, Shape::second_order}, std::pair{1.2, Shape::ramp}}) {
            CycleForm form = oscillating(frequency, 2.0);
            form.insufflation_cmH2O = 32.0;
            form.insufflation_s = 1.4;
            form.form = {edge, 0.13, 0.7};
            form.cycles = 2;
            const auto truth = analytic::truth_of(analytic::cycling(form));
            const auto phases = measured(form, rate, {});
            ASSERT_EQ(phases.size(), truth.size());
            for (const std::size_t k : {1U, 2U, 4U, 5U}) {
                ASSERT_TRUE(phases[k].oscillation) << frequency << " Hz at " << rate << ", phase " << k;
                EXPECT_NEAR(phases[k].oscillation->frequency_hz, frequency, 0.03 * frequency) << rate;
                EXPECT_NEAR(phases[k].oscillation->amplitude_cmH2O, 2.0, 0.2) << rate;
                EXPECT_NEAR(phases[k].plateau->value_cmH2O, truth[k].level_cmH2O, 0.1) << rate;
            }
        }
    }
}

TEST(Oscillation, ASlowRingInEveryPhaseIsNone)
{
    for (const double rate : {100.0, 1000.0}) {
        for (const double edge_s : {0.2, 0.3}) {
            CycleForm form;
            form.form = {Shape::second_order, edge_s, 0.4037};
            for (const Phase& phase : measured(form, rate, {})) {
                EXPECT_FALSE(phase.oscillation) << edge_s << " s at " << rate;
            }
        }
    }
}

TEST(Oscillation, EdgesThatSettleLateInShortPhasesAreNone)
{
    for (const double rate : {100.0, 1000.0}) {
        for (const Shape shape : {Shape::exponential, Shape::second_order}) {
            CycleForm form;
            form.insufflation_s = form.exsufflation_s = form.pause_s = 0.5;
            form.form = {shape, 0.12, 0.7};
            for (const Phase& phase : measured(form, rate, {})) {
                EXPECT_FALSE(phase.oscillation) << name_of(shape) << " at " << rate;
            }
        }
    }
}

// A slow oscillation that stands high all along a slow S-shaped edge: on the pressure as it is the edge may seem to
// begin a tenth of a second earlier. Its uncertainty has to say so.
TEST(Oscillation, AnEdgeBesideASlowOneTellsInItsUncertaintyHowFarItMayBeOff)
{
    CycleForm form = oscillating(1.05, 3.1);
    form.insufflation_cmH2O = 14.6;
    form.exsufflation_cmH2O = -11.9;
    form.insufflation_s = form.exsufflation_s = 1.8;
    form.form = {Shape::gaussian, 0.15, 0.7};
    form.cycles = 1;
    const auto truth = analytic::truth_of(analytic::cycling(form));
    for (const std::uint64_t seed : {1U, 2U, 3U}) {
        const auto phases = measured(form, 2000.0, {}, seed);
        ASSERT_EQ(phases.size(), truth.size());
        for (std::size_t k = 1; k < phases.size(); ++k) {
            const Instant& onset = phases[k].entering->onset;
            // Harder than any edge of the study: a fifth beyond U is a gap that docs/method.md tells of.
            const double within_s = 2.5 * std::hypot(onset.noise_u_s, onset.sampling_u_s);
            EXPECT_NEAR(onset.time_s, truth[k].onset_s, within_s) << k << ", seed " << seed;
        }
    }
}

TEST(Oscillation, WholePeriodsEndAtNineTenths)
{
    const auto window = whole_periods({10.0, 12.0}, 3.0);
    ASSERT_TRUE(window);
    EXPECT_NEAR(window->to_s, 11.8, 1e-12);
    EXPECT_NEAR(window->from_s, 10.8, 1e-12);
    EXPECT_FALSE(whole_periods({10.0, 12.0}, 0.8));
}

} // namespace
} // namespace zeroline::signal
