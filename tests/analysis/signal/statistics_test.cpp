#include "analysis/signal/statistics.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace zeroline::signal {
namespace {

double median_by_sorting(std::vector<double> values)
{
    std::sort(values.begin(), values.end());
    const std::size_t upper = values.size() / 2;
    return values.size() % 2 == 1 ? values[upper] : (values[upper - 1] + values[upper]) / 2.0;
}

// One draw of each kind of values that are hard on a search by limits.
std::vector<std::vector<double>> kinds_of_values(std::size_t count, std::mt19937& random)
{
    std::normal_distribution<> normal;
    std::cauchy_distribution<> with_tails;
    std::vector<std::vector<double>> kinds(5, std::vector<double>(count));
    for (std::size_t i = 0; i < count; ++i) {
        kinds[0][i] = normal(random);
        kinds[1][i] = std::abs(normal(random));
        kinds[2][i] = with_tails(random);
        kinds[3][i] = std::round(normal(random)); // many are equal
        kinds[4][i] = i % 9 == 0 ? std::copysign(HUGE_VAL, normal(random)) : std::pow(10.0, 30.0 * normal(random));
    }
    return kinds;
}

TEST(Median, IsTheMiddleOfTheSortedValues)
{
    std::mt19937 random(20261125);
    for (const std::size_t count : {1U, 2U, 3U, 24U, 99U, 100U, 101U, 500U, 1999U, 4000U}) {
        for (int draw = 0; draw < 20; ++draw) {
            for (const auto& values : kinds_of_values(count, random)) {
                EXPECT_EQ(median(values), median_by_sorting(values)) << count;
            }
        }
    }
}

TEST(Median, OfEqualValuesIsThatValue)
{
    EXPECT_EQ(median(std::vector<double>(1000, -3.25)), -3.25);
    EXPECT_EQ(median(std::vector<double>(1001, 0.0)), 0.0);
}

TEST(Median, OfNothingIsNone) { EXPECT_EQ(median({}), std::nullopt); }

} // namespace
} // namespace zeroline::signal
