// Worked examples of EA-4/02 (evaluation of the uncertainty of measurement in calibration), S2, S9 and S10: figures
// from memory, arithmetic recomputed.

#include "analysis/metrology/rectangle_sum.hpp"
#include "analysis/metrology/uncertainty.hpp"
#include "tests/analysis/metrology/monte_carlo.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace zeroline::metrology {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

Contribution normal(double u, double sensitivity = 1.0)
{
    return {"", u, Distribution::normal, kInfinite, sensitivity};
}

Contribution rectangular(double half_width) { return {"", half_width, Distribution::rectangular, kInfinite, 1.0}; }

// Source: EA-4/02, S2, weight of 10 kg (from memory).
TEST(Ea402S2Weight, gives_the_printed_uncertainty)
{
    const auto result =
        combine({normal(22.5), rectangular(15), normal(25.0 / std::sqrt(3.0)), rectangular(10), rectangular(10)});
    EXPECT_NEAR(result.standard_uncertainty, 29.261750, 1e-6); // printed 29.3
    // Printed: k = 2, the normal distribution's. Ours is that of the sum itself, whose rectangles make it a little less.
    EXPECT_NEAR(result.coverage_factor, 2.0, 0.002);
    EXPECT_NEAR(result.expanded_uncertainty, 59, 0.6); // printed 59
}

// Source: EA-4/02, S9, hand-held multimeter at 100 V (from memory): one rectangle, k = 1.65, U = 0.05 V.
TEST(Ea402S9Multimeter, gives_the_printed_uncertainty)
{
    const auto result = combine({normal(0.001), rectangular(0.011), rectangular(0.05)}, 0.95);
    EXPECT_NEAR(result.standard_uncertainty, 0.029574765, 1e-9); // printed 0.030
    EXPECT_NEAR(result.expanded_uncertainty, 0.05, 0.005);       // printed 0.05
    EXPECT_LT(result.coverage_factor, 1.75);                     // nowhere near the normal's 1.96
}

TEST(Ea402S9Multimeter, gives_the_printed_factor_where_the_small_contributions_are_left_out)
{
    EXPECT_NEAR(combine({rectangular(0.05)}, 0.95).coverage_factor, 1.645448267, 1e-8); // printed 1.65
}

// Source: EA-4/02, S10, vernier caliper (from memory): two rectangles, k = 1.83, U = 0.06 mm.
TEST(Ea402S10Caliper, gives_the_printed_uncertainty)
{
    const auto result = combine({normal(0.46), normal(1.15, 1.7), rectangular(25), rectangular(50)}, 0.95);
    EXPECT_NEAR(result.standard_uncertainty, 32.337289, 1e-6); // printed 33 um
    EXPECT_NEAR(result.coverage_factor, 1.83, 0.015);          // printed 1.83
    EXPECT_NEAR(result.expanded_uncertainty, 60.0, 1.0);       // printed 0.06 mm
}

// The closed form of EA-4/02, S10.13 (from memory): k = (1 - sqrt((1 - p)(1 - beta^2))) / sqrt((1 + beta^2) / 6), beta
// the ratio of the trapezoid's upper to its lower edge.
TEST(Ea402S10Caliper, gives_the_factor_of_a_trapezoid_in_closed_form)
{
    struct Trapezoid {
        double upper_over_lower_edge, factor;
    };
    for (const auto& [beta, factor] :
         {Trapezoid{0.0, 1.901767185}, Trapezoid{0.33, 1.835109971}, Trapezoid{0.5, 1.766626161}}) {
        const double wide = 0.5 * (1.0 + beta), narrow = 0.5 * (1.0 - beta);
        EXPECT_NEAR(combine({rectangular(wide), rectangular(narrow)}, 0.95).coverage_factor, factor, 1e-7) << beta;
    }
}

// A rectangle, a second one and a normal of growing size: the factor is that of the distribution itself, drawn.
TEST(DominatingRectangles, cover_what_a_monte_carlo_says)
{
    for (const double rest : {0.05, 0.2, 0.4, 0.8})
        for (const double second : {0.0, 0.5, 1.0}) {
            const std::vector<Contribution> budget{rectangular(1.0), rectangular(second),
                                                   normal(rest / std::sqrt(3.0))};
            std::vector<Input> inputs;
            for (const auto& entry : budget)
                inputs.push_back({0.0, entry});
            const auto sum = [](std::span<const double> x) { return x[0] + x[1] + x[2]; };
            const auto drawn = propagate(inputs, sum, {kCoverage, 3, 400'000, 7});
            const double half_width = 0.5 * (drawn.high - drawn.low);
            EXPECT_NEAR(combine(budget).expanded_uncertainty, half_width, 0.006 * half_width) << rest << ' ' << second;
        }
}

} // namespace
} // namespace zeroline::metrology
