#include "acquisition/trace/units.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace zeroline::trace {
namespace {

// Conversions are exact factors: one part in 1e12 leaves room for rounding only.
constexpr double kRelative = 1e-12;

void expect_close(double value, double expected) { EXPECT_NEAR(value, expected, kRelative * std::fabs(expected)); }

struct Factor {
    PressureUnit unit;
    double full; ///< pascal per unit, exact or to 15 digits
    double printed;
    double half_of_last_digit;
};

// NIST SP 811 (2008), appendix B.8, as printed there; full precision from standard gravity 9.80665 m/s2, the
// international inch and pound, 1000 kg/m3 for water and 13 595.1 kg/m3 for mercury (GNU Units 2.22 gives the same).
const Factor kFactors[] = {
    {PressureUnit::cmH2O, 98.0665, 98.0665, 0.00005},
    {PressureUnit::mmH2O, 9.80665, 9.80665, 0.0000005}, // "millimeter of water, conventional"
    {PressureUnit::Pa, 1.0, 1.0, 0.0},
    {PressureUnit::hPa, 100.0, 100.0, 0.0},
    {PressureUnit::kPa, 1000.0, 1000.0, 0.0},
    {PressureUnit::mbar, 100.0, 100.0, 0.0},
    {PressureUnit::mmHg, 133.322387415, 133.3224, 0.00005},
    {PressureUnit::inH2O, 249.08891, 249.0889, 0.00005},
    {PressureUnit::psi, 6894.757293168361, 6894.757, 0.0005},
    {PressureUnit::bar, 100000.0, 100000.0, 0.0},
};

TEST(Units, FactorsAreThoseOfNistSp811)
{
    ASSERT_EQ(std::size(kFactors), all_pressure_units().size());
    for (const auto& factor : kFactors) {
        SCOPED_TRACE(name_of(factor.unit));
        expect_close(pascal_per(factor.unit), factor.full);
        EXPECT_NEAR(pascal_per(factor.unit), factor.printed, factor.half_of_last_digit);
    }
}

// The other way round, conventional columns; psi and mmHg confirmed by GNU Units 2.22.
TEST(Units, OneOfEachInCentimetresOfWater)
{
    expect_close(to_cmH2O(1.0, PressureUnit::mmHg), 1.35951);
    expect_close(to_cmH2O(1.0, PressureUnit::inH2O), 2.54);
    EXPECT_NEAR(to_cmH2O(1.0, PressureUnit::hPa), 1.019716212978, 5e-13);
    EXPECT_NEAR(to_cmH2O(1.0, PressureUnit::mbar), 1.019716212978, 5e-13);
    EXPECT_NEAR(to_cmH2O(1.0, PressureUnit::kPa), 10.197162129779, 5e-13);
    EXPECT_NEAR(to_cmH2O(1.0, PressureUnit::bar), 1019.716212977928, 5e-13 * 1000);
    EXPECT_NEAR(to_cmH2O(1.0, PressureUnit::psi), 70.306957963916, 5e-13 * 100);
}

TEST(Units, WorkingPointsComeOutInEveryUnit)
{
    expect_close(from_cmH2O(40.0, PressureUnit::Pa), 3922.66);
    expect_close(from_cmH2O(40.0, PressureUnit::hPa), 39.2266);
    expect_close(from_cmH2O(40.0, PressureUnit::kPa), 3.92266);
    EXPECT_NEAR(from_cmH2O(40.0, PressureUnit::mmHg), 29.4223654111, 5e-11);
    EXPECT_NEAR(from_cmH2O(40.0, PressureUnit::inH2O), 15.7480314961, 5e-11);
    EXPECT_NEAR(from_cmH2O(40.0, PressureUnit::psi), 0.5689337323, 5e-11);
    EXPECT_NEAR(from_cmH2O(70.0, PressureUnit::mmHg), 51.4891394694, 5e-11);
}

TEST(Units, TheSignSurvivesEveryConversion)
{
    for (const auto unit : all_pressure_units()) {
        EXPECT_EQ(to_cmH2O(-40.0, unit), -to_cmH2O(40.0, unit)) << name_of(unit);
        EXPECT_LT(from_cmH2O(-40.0, unit), 0.0) << name_of(unit);
    }
}

TEST(Units, ThereAndBackIsTheSamePressure)
{
    for (const auto unit : all_pressure_units()) {
        expect_close(to_cmH2O(from_cmH2O(-39.8, unit), unit), -39.8);
    }
}

// 60 hPa taken for 60 cmH2O is 1.18 cmH2O wrong, and no limit would notice: it must never happen by accident.
TEST(Units, HectopascalAreNotCentimetresOfWater)
{
    EXPECT_NEAR(to_cmH2O(60.0, PressureUnit::hPa) - 60.0, 1.18297, 1e-5);
    EXPECT_NE(pressure_unit_named("hPa"), pressure_unit_named("cmH2O"));
}

TEST(Units, CentimetresOfWaterStayAsTheyAreToTheLastBit)
{
    EXPECT_EQ(to_cmH2O(39.87654321, PressureUnit::cmH2O), 39.87654321);
    EXPECT_EQ(from_cmH2O(39.87654321, PressureUnit::cmH2O), 39.87654321);
}

TEST(Units, EveryNameIsReadBack)
{
    for (const auto unit : all_pressure_units()) {
        EXPECT_EQ(pressure_unit_named(name_of(unit)), unit);
    }
}

TEST(Units, NamesThatAreNotQuiteRightAreUnknown)
{
    for (const auto* name : {"", "cmh2o", "CMH2O", "pa", "HPA", "torr", "cmH2O ", "psig"}) {
        EXPECT_FALSE(pressure_unit_named(name)) << name;
    }
}

} // namespace
} // namespace zeroline::trace
