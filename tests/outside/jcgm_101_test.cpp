// Propagation of distributions: JCGM 101:2008, clause 9. Published outputs of 9.2.4, 9.3 and 9.4 are from memory; those
// of 9.2.2 and 9.2.3 were read in three libraries' tests; all were recomputed.

#include "tests/analysis/metrology/monte_carlo.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <vector>

namespace zeroline::metrology {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

Input normal(double estimate, double u) { return {estimate, {"", u, Distribution::normal, kInfinite, 1.0}}; }

Input between(double low, double high)
{
    return {0.5 * (low + high), {"", 0.5 * (high - low), Distribution::rectangular, kInfinite, 1.0}};
}

double sum(std::span<const double> x) { return std::accumulate(x.begin(), x.end(), 0.0); }

const MonteCarlo kAt95{0.95, 3, 1'000'000, 1};

std::vector<Contribution> as_budget(const std::vector<Input>& inputs)
{
    std::vector<Contribution> budget;
    for (const auto& input : inputs)
        budget.push_back(input.spread);
    return budget;
}

// Source: JCGM 101:2008, 9.2.2, table 2.
TEST(Jcgm101Sum, of_four_normals_is_normal)
{
    const std::vector<Input> inputs(4, normal(0, 1));
    const auto result = propagate(inputs, sum, kAt95);
    EXPECT_NEAR(result.standard_uncertainty, 2.0, 0.01);
    EXPECT_NEAR(result.expanded_uncertainty, 3.919927969, 0.03);
    EXPECT_NEAR(combine(as_budget(inputs), 0.95).expanded_uncertainty, 3.919927969, 1e-8);
}

// Source: JCGM 101:2008, 9.2.3, table 3; exact 2 sqrt(3) (2 - (3/5)^(1/4)).
TEST(Jcgm101Sum, of_four_rectangles_is_narrower_than_normal)
{
    const double a = std::sqrt(3.0);
    const std::vector<Input> inputs(4, between(-a, a));
    const auto result = propagate(inputs, sum, kAt95);
    EXPECT_NEAR(result.high, 3.879406741, 0.03); // published 3.88
    EXPECT_NEAR(result.low, -3.879406741, 0.03);
}

// Source: JCGM 101:2008, 9.2.4, table 4 (from memory): one rectangle ten times as wide; first order says 19.9.
TEST(Jcgm101Sum, with_one_dominating_rectangle_is_found_without_drawing)
{
    const double a = std::sqrt(3.0);
    std::vector<Input> inputs(3, between(-a, a));
    inputs.push_back(between(-10 * a, 10 * a));
    const auto drawn = propagate(inputs, sum, kAt95);
    const auto combined = combine(as_budget(inputs), 0.95);
    EXPECT_NEAR(drawn.standard_uncertainty, 10.148892, 0.05); // published 10.1
    EXPECT_NEAR(drawn.expanded_uncertainty, 17.0, 0.1);       // published 17.0
    EXPECT_NEAR(combined.expanded_uncertainty, 17.0, 0.1);
}

// Source: JCGM 101:2008, 9.3, mass calibration (model and inputs read; outputs from memory): mg.
TEST(Jcgm101Mass, gives_the_published_uncertainty_that_first_order_misses)
{
    const std::vector<Input> inputs{normal(100'000, 0.050), normal(1.234, 0.020), between(1.10, 1.30),
                                    between(7000, 9000), between(7950, 8050)};
    const auto model = [](std::span<const double> x) {
        const double air = x[2] - 1.2;
        return (x[0] + x[1]) * (1.0 + air * (1.0 / x[3] - 1.0 / x[4])) - 100'000.0;
    };
    const auto result = propagate(inputs, model, {0.95, 3, 1'000'000, 3});
    EXPECT_NEAR(result.mean, 1.2340, 0.0005);
    EXPECT_NEAR(result.standard_uncertainty, 0.0754, 0.0004);
    EXPECT_NEAR(result.low, 1.0834, 0.003);
    EXPECT_NEAR(result.high, 1.3825, 0.003);
}

// Source: JCGM 101:2008, 9.4, comparison loss (from memory), in units of 1e-6: mean x1^2 + 2 u^2, deviation
// sqrt(4 x1^2 u^2 + 4 u^4). First order says u = 0 at x1 = 0.
TEST(Jcgm101ComparisonLoss, does_not_assume_symmetry)
{
    struct Case {
        double x1, mean, deviation, high;
    };
    const auto model = [](std::span<const double> x) { return 1e6 * (x[0] * x[0] + x[1] * x[1]); };
    for (const auto& c : {Case{0.0, 50, 50, 150}, Case{0.010, 150, 111.803399, 0}, Case{0.050, 2550, 502.493781, 0}}) {
        const std::vector<Input> inputs{normal(c.x1, 0.005), normal(0, 0.005)};
        const auto result = propagate(inputs, model, {0.95, 3, 1'000'000, 5});
        EXPECT_NEAR(result.mean, c.mean, 0.004 * c.mean);
        EXPECT_NEAR(result.standard_uncertainty, c.deviation, 0.01 * c.deviation);
        EXPECT_GT(result.high - result.mean, c.x1 < 0.02 ? 1.2 * (result.mean - result.low) : 0.0);
    }
}

// In closed form: X1^2 + X2^2 at 0 is exponential with mean 2 u^2, so its symmetric 95 % interval is known.
TEST(Jcgm101ComparisonLoss, has_the_interval_of_an_exponential_at_zero)
{
    const std::vector<Input> inputs{normal(0, 0.005), normal(0, 0.005)};
    const auto result = propagate(inputs, [](std::span<const double> x) { return 1e6 * (x[0] * x[0] + x[1] * x[1]); },
                                  {0.95, 3, 1'000'000, 5});
    EXPECT_NEAR(result.low, -50 * std::log(0.975), 0.05);
    EXPECT_NEAR(result.high, -50 * std::log(0.025), 2.0);
}

TEST(MonteCarlo, gives_the_same_result_for_the_same_seed_only)
{
    const std::vector<Input> inputs{normal(0, 1),
                                    {0, {"", 1, Distribution::student, 5, 1}},
                                    {0, {"", 1, Distribution::arcsine}},
                                    {0, {"", 1, Distribution::triangular}}};
    const auto once = propagate(inputs, sum), again = propagate(inputs, sum),
               other = propagate(inputs, sum, {kCoverage, 2, 2'000'000, 2});
    EXPECT_EQ(once.high, again.high);
    EXPECT_NE(once.high, other.high);
    EXPECT_TRUE(once.settled);
    // Variances: 1, dof / (dof - 2), 1/2, 1/6.
    EXPECT_NEAR(once.standard_uncertainty, std::sqrt(1 + 5.0 / 3 + 0.5 + 1.0 / 6), 0.05);
}

TEST(MonteCarlo, says_so_when_the_trials_did_not_suffice)
{
    const std::vector<Input> inputs{normal(0, 1)};
    EXPECT_FALSE(propagate(inputs, sum, {0.95, 5, 30'000, 1}).settled);
}

} // namespace
} // namespace zeroline::metrology
