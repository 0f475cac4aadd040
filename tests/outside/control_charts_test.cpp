// Control charts: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2; values read in several copies.

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

// Source: R, data set `cars` (stopping distance in feet against speed in miles an hour, 50 cars), from memory:
// predict(lm(dist ~ speed), data.frame(speed = c(12, 19, 24)), interval = "prediction").
TEST(RPrediction, has_the_line_and_the_band_for_a_next_reading)
{
    const std::vector<double> speed{4,  4,  7,  7,  8,  9,  10, 10, 10, 11, 11, 12, 12, 12, 12, 13, 13,
                                    13, 13, 14, 14, 14, 14, 15, 15, 15, 16, 16, 17, 17, 17, 18, 18, 18,
                                    18, 19, 19, 19, 20, 20, 20, 20, 20, 22, 23, 24, 24, 24, 24, 25};
    const std::vector<double> dist{2,  10, 4,  22, 16, 10, 18, 26, 34, 17, 28, 14, 20, 24, 28,  26, 34,
                                   34, 46, 26, 36, 60, 80, 20, 26, 54, 32, 40, 32, 40, 50, 42,  56, 76,
                                   84, 36, 46, 68, 32, 48, 52, 56, 64, 66, 54, 70, 92, 93, 120, 85};
    const auto line = fit_line(speed, dist).value();
    struct Printed {
        double speed, fit, lower, upper;
    };
    for (const auto& printed : {Printed{12, 29.60981, -1.749529, 60.96915}, Printed{19, 57.13667, 25.761756, 88.51159},
                                Printed{24, 76.79872, 44.752478, 108.84495}}) {
        const auto next = line.predict(printed.speed, 0.95);
        EXPECT_NEAR(next.value, printed.fit, 5e-5);
        EXPECT_NEAR(next.value - next.half_band, printed.lower, 5e-5);
        EXPECT_NEAR(next.value + next.half_band, printed.upper, 5e-5);
        // A limit at the end of R's band is reached just there.
        const auto reached = line.leaves({std::nullopt, printed.upper}, speed.front(), 30.0, 0.95);
        ASSERT_TRUE(reached.has_value());
        EXPECT_NEAR(*reached, printed.speed, 5e-5);
    }
}

} // namespace
} // namespace zeroline::metrology
