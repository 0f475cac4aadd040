// Decision rules: JCGM 106:2012, ILAC-G8:09/2019, ANSI/NCSL Z540.3-2006, and published risk values.

#include "analysis/metrology/decision.hpp"
#include "analysis/metrology/uncertainty.hpp"
#include "tests/analysis/metrology/risk.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace zeroline::metrology {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
const Limits kPlusMinusTwo{38.0, 42.0};

// Source: JCGM 106:2012, 7.3, table 1 (from memory): one-sided z of conformance probabilities.
TEST(Jcgm106Table1, gives_the_conformance_probability_of_a_one_sided_limit)
{
    struct Row {
        double probability, z;
    };
    for (const auto& [probability, z] : {Row{0.80, 0.841621234}, Row{0.90, 1.281551566}, Row{0.95, 1.644853627},
                                         Row{0.99, 2.326347874}, Row{0.999, 3.090232306}}) {
        const double u = 0.3;
        EXPECT_NEAR(probability_outside(10.0 - z * u, u, kInfinite, {std::nullopt, 10.0}), 1.0 - probability, 1e-9);
        EXPECT_NEAR(probability_outside(10.0 + z * u, u, kInfinite, {10.0, std::nullopt}), 1.0 - probability, 1e-9);
    }
}

// Source: JCGM 106:2012, 8.3.3 (from memory): 107 km/h against 100, u = 2 % of the reading.
TEST(Jcgm106SpeedEnforcement, is_beyond_the_limit_with_the_printed_probability)
{
    EXPECT_NEAR(probability_outside(107.0, 2.14, kInfinite, {std::nullopt, 100.0}), 0.999464214,
                1e-9); // printed 0.9995
}

Prior ball_bearings_um()
{
    // Gamma distribution of shape 4 and scale 0.25 um.
    return {[](double x) { return x * x * x * std::exp(-4.0 * x) * 256.0 / 6.0; }, 0.0, 15.0};
}

// Source: JCGM 106:2012, 9.5.4, ball bearings; three values read in a calculator's notebook, all recomputed.
TEST(Jcgm106BallBearings, gives_the_printed_risks)
{
    const Limits tolerance{std::nullopt, 2.0};
    const auto simple = global_risks(ball_bearings_um(), 0.25, tolerance, tolerance);
    EXPECT_NEAR(simple.nonconforming, 0.042380112, 1e-8); // printed 4.2 %
    EXPECT_NEAR(simple.consumer, 0.008019112, 1e-8);      // printed 0.8 %
    EXPECT_NEAR(simple.producer, 0.017444569, 1e-8);
    const auto guarded = global_risks(ball_bearings_um(), 0.25, tolerance, {std::nullopt, 2.0 - 0.328171228});
    EXPECT_NEAR(guarded.consumer, 0.001, 1e-8); // printed 0.1 %
    EXPECT_NEAR(guarded.producer, 0.075493876, 1e-8);
}

// Source: ILAC-G8:09/2019, table 1 (from memory), beside the exact normal tails at the acceptance limit, U = 2 u.
TEST(IlacG8Table1, gives_the_specific_risk_at_the_acceptance_limit)
{
    struct Row {
        double guard_in_U, risk;
    };
    for (const auto& [guard, risk] : {Row{3.0, 9.865876e-10}, Row{1.5, 0.00134990}, Row{1.0, 0.02275013},
                                      Row{0.83, 0.04845723}, Row{0.822427, 0.05}, Row{0.0, 0.5}})
        EXPECT_NEAR(probability_outside(10.0 - guard * 0.6, 0.3, kInfinite, {std::nullopt, 10.0}), risk,
                    2e-6 * risk + 1e-14)
            << guard;
}

// Source: ILAC-G8:09/2019, 4.2.1 and 4.2.3; probabilities recomputed. Set 40, tolerance 2, U = 0.6.
TEST(IlacG8Rules, decide_a_pressure_of_40_within_2)
{
    using enum Outcome;
    struct Row {
        double value, conform;
        Outcome simple, guarded;
    };
    for (const auto& row : {Row{41.2, 0.996169619, pass, pass}, Row{41.4, 0.977249868, pass, pass},
                            Row{41.6, 0.908788780, pass, conditional_pass}, Row{42.0, 0.5, pass, conditional_pass},
                            Row{42.3, 0.158655254, fail, conditional_fail}, Row{42.7, 0.009815329, fail, fail}}) {
        // 41.4 is a hair above 42 - 0.6 in binary; what is decided here is the rule, not the rounding.
        const double U = row.value == 41.4 ? 42.0 - 41.4 : 0.6;
        EXPECT_NEAR(1.0 - probability_outside(row.value, 0.3, kInfinite, kPlusMinusTwo), row.conform, 1e-9);
        EXPECT_EQ(decide(row.value, U, kPlusMinusTwo, Rule::simple), row.simple) << row.value;
        EXPECT_EQ(decide(row.value, U, kPlusMinusTwo, Rule::guarded), row.guarded) << row.value;
        EXPECT_EQ(decide(-row.value, U, {-42.0, -38.0}, Rule::guarded), row.guarded) << "mirrored " << row.value;
    }
}

double worst_false_accept(double tur)
{
    // Readings of U = 1 / tur against +-1, over in-tolerance rates from 40 to 90 %.
    double worst = 0.0;
    for (double deviation = 0.6; deviation < 2.0; deviation += 0.01)
        worst = std::max(worst, global_risks(normal_prior(0, deviation), 0.5 / tur, {-1.0, 1.0}, {-1.0, 1.0}).consumer);
    return worst;
}

// Source: ANSI/NCSL Z540.3-2006, 5.3 b: false accept at most 2 %, else a ratio of 4:1. Worst cases recomputed: 4:1
// alone does not give 2 %.
TEST(Z540, has_the_known_worst_case_of_false_accept)
{
    EXPECT_NEAR(worst_false_accept(2.0), 0.041753, 2e-6);
    EXPECT_NEAR(worst_false_accept(4.0), 0.022382, 2e-6);
    EXPECT_NEAR(worst_false_accept(4.6), 0.019648, 2e-6);
    EXPECT_NEAR(worst_false_accept(10.0), 0.009360, 2e-6);
}

double deviation_for(double in_tolerance) { return 1.0 / student_factor(in_tolerance, kInfinite); }

TEST(Z540, has_the_known_risks_at_95_percent_in_tolerance)
{
    struct Row {
        double tur, false_accept, false_reject;
    };
    for (const auto& row : {Row{2, 0.013373, 0.041775}, Row{3, 0.010485, 0.022936}, Row{4, 0.008583, 0.015537}}) {
        const auto risks = global_risks(normal_prior(0, deviation_for(0.95)), 0.5 / row.tur, {-1.0, 1.0}, {-1.0, 1.0});
        EXPECT_NEAR(risks.consumer, row.false_accept, 6e-7);
        EXPECT_NEAR(risks.producer, row.false_reject, 6e-7);
    }
}

// Source: the handbook's sixth method for Z540.3, read in a calculator's notebook: guard band factor.
TEST(Z540, guard_band_of_the_handbook_keeps_false_accept_near_2_percent)
{
    for (const double tur : {1.5, 2.0, 3.0, 4.0}) {
        const double guard = (1.04 - std::exp(0.38 * std::log(tur) - 0.54)) / tur;
        double worst = 0.0;
        for (double deviation = 0.3; deviation < 3.0; deviation += 0.02)
            worst = std::max(
                worst,
                global_risks(normal_prior(0, deviation), 0.5 / tur, {-1.0, 1.0}, {-1.0 + guard, 1.0 - guard}).consumer);
        EXPECT_NEAR(worst, 0.02, 0.0015) << tur;
    }
}

// Source: draft NCSLI RP-19, unconditional false accept with u a quarter of the products' deviation; read in a
// calculator's tests, to 1e-6.
TEST(DraftRp19, lists_the_false_accept_of_six_populations)
{
    struct Row {
        double in_tolerance, percent;
    };
    for (const auto& row : {Row{0.60, 4.83860326}, Row{0.70, 3.92234109}, Row{0.80, 2.85583037}, Row{0.90, 1.59995312},
                            Row{0.95, 0.87100925}, Row{0.99, 0.19991684}}) {
        const double deviation = deviation_for(row.in_tolerance);
        const auto risks = global_risks(normal_prior(0, deviation), deviation / 4, {-1.0, 1.0}, {-1.0, 1.0});
        EXPECT_NEAR(100.0 * risks.consumer, row.percent, 2e-6) << row.in_tolerance;
    }
}

// Source: D. Deaver's paper on declining test uncertainty ratios, pages 7 and 10; read in a calculator's tests.
TEST(Deaver, gives_the_published_risks)
{
    const auto first = global_risks(normal_prior(0, 0.5), 0.125, {-1.0, 1.0}, {-1.0, 1.0});
    EXPECT_NEAR(first.consumer, 0.008006085, 1e-8); // printed 0.8 %
    EXPECT_NEAR(first.producer, 0.014850884, 1e-8); // printed 1.5 %
    const auto third = global_risks(normal_prior(0, 0.5), 0.25, {-1.0, 1.0}, {-0.91, 0.91});
    EXPECT_NEAR(third.consumer, 0.008051609, 1e-8); // printed 0.8 %
    EXPECT_NEAR(third.producer, 0.066106452, 1e-8); // printed 6.6 %
}

} // namespace
} // namespace zeroline::metrology
