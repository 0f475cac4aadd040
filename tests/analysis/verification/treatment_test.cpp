#include "analysis/verification/treatment.hpp"

#include <gtest/gtest.h>

namespace zeroline::verification {
namespace {

Preset preset_with(const Series& series)
{
    Preset preset;
    preset.insufflation = {40.0, 1.5};
    preset.exsufflation = {-40.0, 1.5};
    preset.pause = {0.0, 2.0};
    preset.series = series;
    return preset;
}

// By hand: a breath takes 5 s; 5 series of 5 breaths with 30 s between them are 25 x 5 s + 4 x 30 s = 245 s.
TEST(TreatmentPlan, counts_breaths_series_and_rests)
{
    const auto plan = treatment_plan(preset_with({5, 5, 30.0}));
    EXPECT_DOUBLE_EQ(plan.cycle_s, 5.0);
    EXPECT_DOUBLE_EQ(plan.cycling_s, 25.0);
    EXPECT_DOUBLE_EQ(plan.whole_s, 245.0);
}

TEST(TreatmentPlan, cycles_all_the_time_where_no_rest_is_prescribed)
{
    const auto plan = treatment_plan(preset_with({6, 10, 0.0}));
    EXPECT_DOUBLE_EQ(plan.cycling_s, 300.0);
    EXPECT_DOUBLE_EQ(plan.whole_s, 300.0);
    EXPECT_GE(plan.cycling_s, kLongestCycling_s) << "five minutes are no longer under five minutes";
}

TEST(TreatmentPlan, of_another_sequence_counts_each_of_its_phases)
{
    auto preset = preset_with({4, 1, 0.0});
    preset.sequence = {Step::insufflation, Step::insufflation, Step::exsufflation, Step::pause};
    EXPECT_DOUBLE_EQ(treatment_plan(preset).cycle_s, 6.5);
    preset.series.reset();
    EXPECT_DOUBLE_EQ(treatment_plan(preset).whole_s, 6.5) << "one breath, where no series is prescribed";
}

} // namespace
} // namespace zeroline::verification
