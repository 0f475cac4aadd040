#include "analysis/signal/phases.hpp"

#include "tests/analysis/signal/analytic.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace zeroline::signal {
namespace {

using analytic::CycleForm;
using analytic::EdgeForm;
using analytic::Shape;

TEST(Phases, CyclesOfTwoPhasesAndAPauseComeBackInOrder)
{
    const auto pressure = analytic::cycling({});
    std::mt19937_64 random(1);
    const auto trace = analytic::sampled(pressure, 250.0, {}, random);
    const auto phases = measure(trace.samples(), {});
    ASSERT_EQ(phases.size(), pressure.segments().size());
    const auto truth = analytic::truth_of(pressure);
    for (std::size_t k = 0; k < phases.size(); ++k) {
        EXPECT_EQ(phases[k].kind, pressure.segments()[k].kind) << k;
        ASSERT_TRUE(phases[k].plateau) << k;
        EXPECT_NEAR(phases[k].plateau->value_cmH2O, truth[k].level_cmH2O, 0.1) << k;
        EXPECT_EQ(phases[k].cut(), k == 0 || k + 1 == phases.size());
        if (k > 0) {
            EXPECT_NEAR(phases[k].start_s(), truth[k].onset_s, 0.001) << k;
        }
    }
}

} // namespace
} // namespace zeroline::signal
