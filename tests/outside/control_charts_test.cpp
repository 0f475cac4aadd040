// Control charts: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 and 6.3.2.4; values read in several copies.

#include "analysis/metrology/drift.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace zeroline::metrology {
namespace {

const std::vector<double> kFlow{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};

// Source: e-Handbook 6.3.2.2. It uses d2 = 1.128 (55.8041, 45.8159); with d2 = 2 / sqrt(pi) the limits are those below.
TEST(EHandbookIndividuals, gives_the_published_chart)
{
    const auto chart = individuals_chart(kFlow).value();
    EXPECT_NEAR(chart.centre, 50.81, 1e-9);
    EXPECT_NEAR(chart.mean_moving_range, 1.877777778, 1e-9); // printed 1.8778
    EXPECT_NEAR(chart.upper, 55.802411680, 1e-8);
    EXPECT_NEAR(chart.lower, 45.817588320, 1e-8);
    EXPECT_NEAR(chart.upper, 55.8041, 0.002);              // printed
    EXPECT_NEAR(chart.moving_range_upper, 6.1347, 0.0015); // printed, with 3.267
    EXPECT_TRUE(chart.outside.empty());
}

// Source: e-Handbook 6.3.2.4: lambda 0.3, start 50, s 2.0539; printed to two decimals.
TEST(EHandbookEwma, gives_the_published_averages_and_limits)
{
    std::vector<double> readings{52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5};
    readings.insert(readings.end(), kFlow.begin(), kFlow.end());
    const std::vector<double> printed{50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33,
                                      50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99};
    const auto chart = ewma_chart(readings, {0.3, 50.0, 2.0539, 3.0});
    ASSERT_EQ(chart.average.size(), printed.size());
    for (std::size_t i = 0; i < printed.size(); ++i)
        EXPECT_NEAR(chart.average[i], printed[i], 0.0051) << i;
    EXPECT_NEAR(chart.upper, 52.588431738, 1e-8); // printed 52.5884
    EXPECT_NEAR(chart.lower, 47.411568262, 1e-8); // printed 47.4115
    EXPECT_TRUE(chart.outside.empty());
}

} // namespace
} // namespace zeroline::metrology
