#include "analysis/metrology/drift.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

namespace zeroline::metrology {
namespace {

TEST(IndividualsChart, names_the_value_that_stands_out)
{
    std::vector<double> errors(20, 0.0);
    for (std::size_t i = 0; i < errors.size(); ++i)
        errors[i] = i % 2 == 0 ? 0.1 : -0.1;
    errors[12] = 3.0;
    EXPECT_EQ(individuals_chart(errors).value().outside, std::vector<std::size_t>{12});
}

TEST(IndividualsChart, needs_two_values)
{
    EXPECT_FALSE(individuals_chart({}));
    EXPECT_FALSE(individuals_chart(std::vector<double>{1.0}));
}

std::vector<std::size_t> completed(const std::vector<double>& values, const std::string& rule)
{
    std::vector<std::size_t> at;
    const auto chart = individuals_chart(values).value();
    for (const auto& run : chart.runs)
        if (run.rule == rule)
            at.push_back(run.at);
    return at;
}

/// Twenty values that go up and down by 0.1 about 0, sigma near 0.18, then some more.
std::vector<double> steady_then(const std::vector<double>& more)
{
    std::vector<double> values;
    for (int i = 0; i < 20; ++i)
        values.push_back(i % 2 == 0 ? 0.1 : -0.1);
    values.insert(values.end(), more.begin(), more.end());
    return values;
}

// Rules: NIST/SEMATECH e-Handbook 6.3.2, "WECO rules", from memory. Where they hold is worked out by hand.
TEST(IndividualsChart, names_runs_that_chance_rarely_makes)
{
    EXPECT_TRUE(individuals_chart(steady_then({})).value().runs.empty());
    EXPECT_EQ(completed(steady_then({0.48, 0.1, 0.48}), "2 of 3 beyond 2 sigma"), std::vector<std::size_t>{22});
    EXPECT_EQ(completed(steady_then({0.48, 0.1, -0.48}), "2 of 3 beyond 2 sigma"), std::vector<std::size_t>{});
    EXPECT_EQ(completed(steady_then({-0.3, -0.3, -0.05, -0.3, -0.3}), "4 of 5 beyond 1 sigma"),
              std::vector<std::size_t>{24});
    EXPECT_EQ(completed(steady_then({0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1}), "8 in a row on one side"),
              std::vector<std::size_t>{27});
}

const std::vector<double> kYears{0, 1, 2, 3};

TEST(WeightedLine, goes_through_points_that_lie_on_one)
{
    const std::vector<double> y{1, 3, 5, 7}, u{0.1, 0.2, 0.3, 0.4};
    const auto line = fit_line(kYears, y, u).value();
    EXPECT_NEAR(line.intercept, 1.0, 1e-12);
    EXPECT_NEAR(line.slope, 2.0, 1e-12);
    EXPECT_EQ(line.scatter, 1.0); // never narrowed below the stated uncertainties
}

// Two readings at each end, u 1 and 2: by hand, weights 1 and 1/4.
TEST(WeightedLine, weighs_by_the_inverse_square_of_u)
{
    const std::vector<double> x{0, 0, 2, 2}, y{0, 5, 0, 5}, u{1, 2, 1, 2};
    const auto line = fit_line(x, y, u).value();
    EXPECT_NEAR(line.slope, 0.0, 1e-12);
    EXPECT_NEAR(line.intercept, 1.0, 1e-12);
}

TEST(WeightedLine, is_widened_where_readings_scatter_more_than_they_may)
{
    const std::vector<double> y{0, 3, 0, 3}, small(4, 0.1), large(4, 3.0);
    EXPECT_GT(fit_line(kYears, y, small).value().scatter, 10.0);
    EXPECT_NEAR(fit_line(kYears, y, small).value().slope_u, fit_line(kYears, y).value().slope_u, 1e-9);
    EXPECT_EQ(fit_line(kYears, y, large).value().scatter, 1.0);
}

TEST(WeightedLine, foresees_less_surely_the_farther_it_looks)
{
    const std::vector<double> y{0.0, 0.6, 0.9, 1.6}, u(4, 0.1);
    const auto line = fit_line(kYears, y, u).value();
    EXPECT_LT(line.predict(4.0).half_band, line.predict(8.0).half_band);
    EXPECT_GT(line.predict(4.0).half_band, student_factor(kCoverage, 2.0) * 0.1);
}

TEST(WeightedLine, says_when_its_band_reaches_a_limit)
{
    const std::vector<double> y{0.0, 0.5, 1.0, 1.5}, u(4, 0.01);
    const auto line = fit_line(kYears, y, u).value();
    const auto when = line.leaves({-2.0, 3.0}, 3.0, 20.0);
    ASSERT_TRUE(when);
    EXPECT_LT(*when, 6.0);
    EXPECT_GT(*when, 5.0);
    EXPECT_NEAR(line.predict(*when).value + line.predict(*when).half_band, 3.0, 1e-9);
}

TEST(WeightedLine, that_stays_inside_reaches_no_limit_and_one_outside_is_out_at_once)
{
    const std::vector<double> flat{0.0, 0.01, 0.0, 0.01}, u(4, 0.01);
    const auto line = fit_line(kYears, flat, u).value();
    EXPECT_FALSE(line.leaves({-5.0, 5.0}, 3.0, 10.0));
    EXPECT_EQ(line.leaves({1.0, 5.0}, 3.0, 10.0), 3.0);
}

TEST(WeightedLine, is_not_drawn_through_two_readings_or_one_date)
{
    EXPECT_FALSE(fit_line(std::vector<double>{0, 1}, std::vector<double>{0, 1}));
    EXPECT_FALSE(fit_line(std::vector<double>{1, 1, 1}, std::vector<double>{0, 1, 2}));
}

} // namespace
} // namespace zeroline::metrology
