#include "analysis/metrology/uncertainty.hpp"

#include "analysis/metrology/decision.hpp"
#include "tests/analysis/metrology/monte_carlo.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace zeroline::metrology {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

TEST(Budget, of_three_and_four_comes_to_five)
{
    const auto result = combine({{"a", 3.0}, {"b", 4.0}});
    EXPECT_DOUBLE_EQ(result.standard_uncertainty, 5.0);
    EXPECT_NEAR(result.expanded_uncertainty, 10.0, 1e-12);
    EXPECT_TRUE(std::isinf(result.effective_dof));
}

TEST(Budget, takes_the_magnitude_of_a_sensitivity)
{
    EXPECT_DOUBLE_EQ(combine({{"a", 3.0, Distribution::normal, kInfinite, -2.0}}).standard_uncertainty, 6.0);
}

TEST(Budget, without_entries_or_of_zeros_has_no_uncertainty_and_k_2)
{
    for (const auto& budget :
         {std::vector<Contribution>{}, {{"none", 0.0}}, {{"none", 0.0, Distribution::rectangular}}}) {
        const auto result = combine(budget);
        EXPECT_EQ(result.expanded_uncertainty, 0.0);
        EXPECT_NEAR(result.coverage_factor, 2.0, 1e-12);
        EXPECT_TRUE(std::isinf(result.effective_dof));
    }
}

TEST(Budget, of_one_reading_has_the_factor_of_its_degrees_of_freedom)
{
    EXPECT_NEAR(combine({{"readings", 1.0, Distribution::student, 4.0}}).coverage_factor, 2.8693, 5e-5);
}

// A transducer's level: certificate U 0.25 (k 2), resolution 0.1, zero and drift, five readings; worked by hand.
TEST(Budget, of_a_transducer_reading_comes_to_a_round_figure)
{
    const auto result = combine({{"certificate", 0.125},
                                 {"resolution", 0.1 / std::sqrt(12.0)},
                                 {"zero", 0.05, Distribution::rectangular},
                                 {"drift", 0.2, Distribution::rectangular},
                                 {"repeatability", 0.06, Distribution::normal, 4.0}});
    EXPECT_NEAR(result.standard_uncertainty, 0.185, 1e-12);
    EXPECT_NEAR(result.effective_dof, 361.528, 1e-3);
}

TEST(Budget, has_the_factor_of_a_rectangle_only_while_rectangles_dominate)
{
    const auto k = [](double rest) {
        return combine({{"wide", 1.0, Distribution::rectangular}, {"rest", rest}}).coverage_factor;
    };
    EXPECT_NEAR(k(0.0), std::sqrt(3.0) * kCoverage, 1e-9);
    EXPECT_LT(k(0.0), k(0.2));
    EXPECT_LT(k(0.2), k(0.5));
    EXPECT_LT(k(0.5), k(2.0));
    EXPECT_NEAR(k(20.0), 2.0, 1e-3);
}

TEST(Budget, takes_no_small_certainty_from_a_few_readings_beside_a_rectangle)
{
    const std::vector<Contribution> budget{{"wide", 1.0, Distribution::rectangular},
                                           {"readings", 0.3, Distribution::student, 3.0}};
    const std::vector<Input> inputs{{0.0, budget[0]}, {0.0, budget[1]}};
    const auto drawn =
        propagate(inputs, [](std::span<const double> x) { return x[0] + x[1]; }, {kCoverage, 3, 400'000, 11});
    EXPECT_NEAR(combine(budget).expanded_uncertainty, 0.5 * (drawn.high - drawn.low), 0.02);
}

// From memory: k does not jump in the GUM's own tables either; what is new here is that no switch between two ways of
// finding it may show.
TEST(Budget, has_a_factor_that_changes_without_a_jump_with_the_size_of_its_rectangle_and_its_degrees_of_freedom)
{
    const auto k = [](double wide, double dof) {
        return combine({{"wide", wide, Distribution::rectangular}, {"rest", 1.0, Distribution::student, dof}})
            .coverage_factor;
    };
    for (double dof = 2.5; dof < 12.0; dof += 0.25)
        for (double wide = 0.01; wide < 6.0; wide *= 1.02) {
            EXPECT_NEAR(k(wide * 1.02, dof), k(wide, dof), 0.01 * k(wide, dof)) << wide << " at " << dof;
            EXPECT_NEAR(k(wide, dof + 0.01), k(wide, dof), 0.03) << wide << " at " << dof;
        }
}

TEST(Budget, spreads_by_the_distribution_that_its_factor_comes_from)
{
    for (const double wide : {0.0, 0.3, 1.0, 3.0})
        for (const double dof : {1.0, 4.0, 6.0, kInfinite}) {
            const auto whole =
                combine({{"wide", wide, Distribution::rectangular}, {"rest", 0.5, Distribution::student, dof}});
            const double at = 10.0 - whole.expanded_uncertainty;
            EXPECT_NEAR(probability_outside(at, whole.spread, {std::nullopt, 10.0}), 0.5 * (1.0 - kCoverage), 1e-9)
                << wide << " at " << dof;
            EXPECT_NEAR(probability_outside(10.0, whole.spread, {std::nullopt, 10.0}), 0.5, 1e-12);
        }
}

TEST(CoverageFactor, above_two_tells_the_degrees_of_freedom_behind_it)
{
    EXPECT_TRUE(std::isinf(dof_of_factor(2.0)));
    EXPECT_TRUE(std::isinf(dof_of_factor(1.96)));
    // JCGM 100:2008, table G.2, 95.45 %: 2.28 for 10, 2.87 for 4, 4.53 for 2 degrees of freedom.
    EXPECT_NEAR(dof_of_factor(2.28), 10.0, 0.2);
    EXPECT_NEAR(dof_of_factor(2.87), 4.0, 0.02);
    EXPECT_NEAR(dof_of_factor(4.53), 2.0, 0.01);
}

TEST(Budget, does_not_depend_on_the_order_of_its_entries)
{
    const Contribution a{"a", 1.0, Distribution::rectangular}, b{"b", 0.7, Distribution::rectangular}, c{"c", 0.1};
    EXPECT_EQ(combine({a, b, c}).coverage_factor, combine({c, b, a}).coverage_factor);
}

TEST(Propagation, of_fully_correlated_inputs_adds_them)
{
    EXPECT_DOUBLE_EQ(propagated_uncertainty(std::array{1.0, 1.0}, std::array{9.0, 12.0, 12.0, 16.0}), 7.0);
    EXPECT_DOUBLE_EQ(propagated_uncertainty(std::array{1.0, -1.0}, std::array{9.0, 12.0, 12.0, 16.0}), 1.0);
}

} // namespace
} // namespace zeroline::metrology
