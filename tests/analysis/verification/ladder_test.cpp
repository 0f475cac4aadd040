#include "analysis/verification/ladder.hpp"

#include "analysis/metrology/uncertainty.hpp"
#include "analysis/verification/measured_trace.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <string>
#include <vector>

namespace zeroline::verification {
namespace {

using metrology::Distribution;
using metrology::kCoverage;
using metrology::student_factor;
using testing::IsEmpty;
using testing::SizeIs;

Judgement row(const std::string& name, double set, double mean, std::vector<metrology::Contribution> budget = {})
{
    Judgement one;
    one.measurand = name;
    one.preset = "day";
    one.against = "set";
    one.unit = name.ends_with("pressure") ? "cmH2O" : "s";
    one.set = set;
    one.mean = mean;
    one.mean_uncertainty = 0.25;
    one.span = 3;
    one.budget = std::move(budget);
    return one;
}

std::vector<Judgement> rows(const std::string& name, const std::vector<double>& set, const std::vector<double>& mean)
{
    std::vector<Judgement> all;
    for (std::size_t i = 0; i < set.size(); ++i)
        all.push_back(row(name, set[i], mean[i]));
    return all;
}

} // namespace

// Source: NIST StRD linear regression, Norris (calibration of ozone monitors), certified values.
TEST(LadderFits, agree_with_the_certified_line_of_norris)
{
    const std::vector<double> x{0.2, 337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4,
                                0.6, 775.5, 666.9, 338.0, 447.5, 11.6,  556.0, 228.1, 995.8, 887.6, 120.2, 0.3,
                                0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
    const std::vector<double> y{0.1, 338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3,
                                0.1, 778.1, 668.8, 339.3, 448.9, 10.8,  557.7, 228.3, 998.0, 888.8, 119.6, 0.3,
                                0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};
    const auto fits = ladder_fits(rows(measurand::insufflation_duration, x, y));
    ASSERT_THAT(fits, SizeIs(1));
    const auto& fit = fits.front();
    const double k = student_factor(kCoverage, 34.0);
    EXPECT_EQ(fit.settings, 36);
    EXPECT_NEAR(fit.gain, 1.00211681802045, 1e-12);
    EXPECT_NEAR(fit.offset, -0.262323073774029, 1e-10);
    EXPECT_NEAR(fit.gain_uncertainty, k * 0.429796848199937e-3, 1e-9);
    EXPECT_NEAR(fit.offset_uncertainty, k * 0.232818234301152, 1e-9);
}

// Source: JCGM 100:2008, H.3 (calibration of a thermometer): intercept, slope and their standard uncertainties.
TEST(LadderFits, agree_with_the_thermometer_of_the_gum)
{
    std::vector<double> t{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511};
    for (double& at : t)
        at -= 20.0;
    const auto fits =
        ladder_fits(rows(measurand::exsufflation_duration, t,
                         {-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160}));
    ASSERT_THAT(fits, SizeIs(1));
    const double k = student_factor(kCoverage, 9.0);
    EXPECT_NEAR(fits[0].offset, -0.1712, 5e-5);
    EXPECT_NEAR(fits[0].gain, 0.00218, 5e-6);
    EXPECT_NEAR(fits[0].offset_uncertainty / k, 0.0029, 5e-5);
    EXPECT_NEAR(fits[0].gain_uncertainty / k, 0.00067, 5e-6);
}

TEST(LadderFits, carry_an_error_that_all_settings_share_into_offset_or_gain_as_it_is)
{
    std::vector<Judgement> pressures, times;
    for (const double set : {20.0, 30.0, 40.0})
        pressures.push_back(row(measurand::insufflation_pressure, set, set,
                                {{"zero reading", 0.1}, {"noise", 9.0}, {"window position", 9.0}}));
    for (const double set : {1.0, 2.0, 5.0})
        times.push_back(row(measurand::insufflation_duration, set, set, {{"clock rate", set * 1e-3}}));
    const auto zero = ladder_fits(pressures).at(0);
    EXPECT_NEAR(zero.offset_uncertainty, 0.2, 1e-9) << "a zero shifts the line, k = 2";
    EXPECT_NEAR(zero.gain_uncertainty, 0.0, 1e-12) << "and does not tilt it; what differs by cycle is in the scatter";
    const auto clock = ladder_fits(times).at(0);
    EXPECT_NEAR(clock.gain_uncertainty, 2e-3, 1e-9) << "a clock's rate is a gain";
    EXPECT_NEAR(clock.offset_uncertainty, 0.0, 1e-12);
}

TEST(LadderFits, take_an_error_of_the_instrument_as_a_shift_and_as_a_tilt)
{
    std::vector<Judgement> all;
    for (const double set : {20.0, 30.0, 40.0})
        all.push_back(row(measurand::insufflation_pressure, set, set, {{"calibration", 0.1}}));
    const auto fit = ladder_fits(all).at(0);
    EXPECT_NEAR(fit.gain_uncertainty, 2.0 * 0.1 / 10.0, 1e-9) << "0.1 up at one end, 0.1 down at the other";
    EXPECT_NEAR(fit.offset_uncertainty, 2.0 * std::hypot(0.1, 0.1 * 3.0), 1e-9);
}

TEST(LadderFits, name_the_setting_that_lies_farthest_from_the_line)
{
    const auto fit =
        ladder_fits(rows(measurand::exsufflation_pressure, {-20.0, -30.0, -40.0, -50.0}, {-20.0, -30.0, -41.0, -50.0}))
            .at(0);
    EXPECT_EQ(fit.deviates_at, -40.0);
    EXPECT_LT(fit.largest_deviation, -0.5);
    EXPECT_EQ(fit.deviation_uncertainty, 0.25);
}

TEST(LadderFits, need_three_settings_and_leave_what_is_no_ladder_alone)
{
    EXPECT_THAT(ladder_fits(rows(measurand::insufflation_pressure, {20.0, 20.0, 40.0}, {20.0, 20.1, 40.0})), IsEmpty());
    auto others = rows(measurand::insufflation_pressure, {20.0, 30.0, 40.0}, {20.0, 30.0, 40.0});
    for (auto& one : others)
        one.span.reset();
    EXPECT_THAT(ladder_fits(others), IsEmpty());
}

} // namespace zeroline::verification
