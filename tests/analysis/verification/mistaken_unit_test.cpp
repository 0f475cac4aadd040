// Readings in another unit of pressure than thought, and units that deliver as much too much or too little: the finding
// hides neither (docs/method.md, judgement).

#include "tests/analysis/verification/synthetic.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace zeroline::verification {
namespace {

using metrology::Outcome;
using synthetic::bench;
using synthetic::has_finding;
using synthetic::has_reason;
using synthetic::Plan;
using synthetic::said;

/// A unit set to 40 that delivers `delivered` times as much, its gauge right; what is read is `read` times what is
/// there.
synthetic::Bench unit_that(double delivered, double read, Shows shows = Shows::live)
{
    Plan plan;
    plan.manual.clear();
    for (auto& cycle : plan.cycles) {
        cycle.insufflation_cmH2O *= delivered;
        cycle.exsufflation_cmH2O *= delivered;
    }
    auto subject = bench(plan);
    for (auto& pressure : subject.trace.pressure_cmH2O) {
        pressure *= read;
    }
    subject.run.displayed =
        std::vector<Displayed>{{"day", std::round(40.0 * delivered), -std::round(40.0 * delivered), shows}};
    return subject;
}

class Scale : public testing::TestWithParam<double> {};

TEST_P(Scale, of_a_unit_whose_display_agrees_is_the_units_own)
{
    const double scale = GetParam();
    const auto result = unit_that(scale, 1.0).result();
    EXPECT_FALSE(has_finding(result, "unit-mismatch")) << said(result);
    EXPECT_EQ(result.verdict, Outcome::fail) << said(result);
    EXPECT_EQ(result.critical, scale > 1.0) << said(result);
}

INSTANTIATE_TEST_SUITE_P(UnitMismatch, Scale,
                         testing::Values(0.40, 0.60, 0.66, 0.70, 0.72, 0.7356, 0.75, 0.80, 0.90, 1.10, 1.20, 1.33, 1.36,
                                         1.39, 1.42));

class MistakenUnit : public testing::TestWithParam<double> {};

// mmHg read as cmH2O: 1 mmHg = 1.35951 cmH2O (conventional, ISO 80000-4, annex C).
TEST_P(MistakenUnit, of_a_unit_that_is_off_itself_never_reads_fail)
{
    for (const auto shows : {Shows::live, Shows::not_read}) {
        const auto result = unit_that(GetParam(), 0.735559, shows).result();
        EXPECT_TRUE(has_finding(result, "unit-mismatch")) << said(result);
        EXPECT_EQ(result.verdict, Outcome::incomplete) << said(result);
        EXPECT_FALSE(result.critical) << said(result);
    }
}

INSTANTIATE_TEST_SUITE_P(UnitMismatch, MistakenUnit, testing::Values(0.90, 0.95, 1.0, 1.05, 1.10));

TEST(UnitMismatch, never_clears_a_reading_above_the_limit_by_the_units_own_display)
{
    const auto result = unit_that(1.0, 1.35951).result();
    EXPECT_TRUE(has_finding(result, "unit-mismatch")) << said(result);
    EXPECT_TRUE(has_finding(result, "over-pressure")) << said(result);
    EXPECT_EQ(result.verdict, Outcome::incomplete) << said(result);
    EXPECT_TRUE(result.critical) << "a display is often the transducer that steers the unit";
    const auto text = said(result);
    EXPECT_THAT(text, testing::HasSubstr("possible-over-pressure: Possible, but the evidence"));
    EXPECT_THAT(text,
                testing::HasSubstr("keep this unit out of use until the instrument is checked against a second gauge "
                                   "or the run is repeated with another instrument."));
}

TEST(UnitMismatch, of_low_readings_without_a_display_is_incomplete)
{
    const auto result = unit_that(0.7356, 1.0, Shows::not_read).result();
    EXPECT_EQ(result.verdict, Outcome::incomplete) << said(result);
}

TEST(UnitMismatch, of_a_display_that_shows_the_setting_only_is_not_refuted)
{
    const auto result = unit_that(1.0, 0.735559, Shows::setting).result();
    EXPECT_TRUE(has_finding(result, "unit-mismatch")) << said(result);
}

} // namespace
} // namespace zeroline::verification
