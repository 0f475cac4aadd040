#include "tests/physics/plain.hpp"

#include <gtest/gtest.h>

namespace zeroline::physics_study {
namespace {

/// 0 to +40 to -40 to 0 by straight edges of 0.1 s that begin at 1, 2.5 and 4 s; every value below follows by hand.
struct Trapezoid {
    std::vector<double> time_s, pressure_cmH2O;

    explicit Trapezoid(double interval_s)
    {
        for (double t = 0.0; t < 6.0; t += interval_s) {
            time_s.push_back(t);
            pressure_cmH2O.push_back(40.0 * edge(t - 1.0) - 80.0 * edge(t - 2.5) + 40.0 * edge(t - 4.0));
        }
    }

    static double edge(double since_s) { return since_s < 0.0 ? 0.0 : since_s > 0.1 ? 1.0 : since_s / 0.1; }

    [[nodiscard]] std::vector<Measured> measured(Bounds bounds) const
    {
        return by_definition({time_s, pressure_cmH2O},
                             {{true, 0.0, 1.05}, {false, 1.05, 2.55}, {false, 2.55, 4.05}, {true, 4.05, 6.0}}, bounds);
    }
};

TEST(Plain, straight_edges_are_timed_to_the_last_bit_of_the_arithmetic)
{
    for (const Bounds bounds : {Bounds::middles, Bounds::rough}) {
        const auto found = Trapezoid(0.01).measured(bounds);
        EXPECT_NEAR(found[1].duration_s().value(), 1.5, 1e-9);
        EXPECT_NEAR(found[2].duration_s().value(), 1.5, 1e-9);
        EXPECT_NEAR(found[1].mid_level_duration_s().value(), 1.5, 1e-9);
        EXPECT_NEAR(found[1].onset_in_s.value(), 1.0, 1e-9);
        EXPECT_NEAR(found[1].time_10_90_s.value(), 0.08, 1e-9);
        EXPECT_NEAR(found[2].time_10_90_s.value(), 0.08, 1e-9);
        EXPECT_NEAR(found[1].level_cmH2O, 40.0, 1e-9);
        EXPECT_NEAR(found[3].level_cmH2O, 0.0, 1e-9);
    }
}

TEST(Plain, a_phase_without_a_neighbour_has_no_duration)
{
    const auto found = Trapezoid(0.01).measured(Bounds::middles);
    EXPECT_FALSE(found[0].duration_s().has_value());
    EXPECT_FALSE(found[3].duration_s().has_value());
    EXPECT_TRUE(found[3].time_10_90_s.has_value());
}

TEST(Plain, values_bear_the_names_that_the_product_gives_them)
{
    std::vector<Value> values;
    name_values(values, 3, signal::PhaseKind::exsufflation, Trapezoid(0.01).measured(Bounds::middles)[2]);
    std::vector<std::string> names;
    for (const Value& value : values)
        names.push_back(value.measurand);
    EXPECT_EQ(names, (std::vector<std::string>{"exsufflation-duration", "exsufflation-duration-mid-level",
                                               "exsufflation-pressure", "swing-time"}));
}

} // namespace
} // namespace zeroline::physics_study
