#include "acquisition/trace/calibration.hpp"

#include <gtest/gtest.h>

namespace zeroline::trace {
namespace {

Instrument with_points(std::vector<CalibrationPoint> points, PressureUnit unit = PressureUnit::cmH2O)
{
    Instrument instrument;
    instrument.range = {-100.0, 100.0, 0.01, unit};
    instrument.nominal_hz = 250.0;
    instrument.calibration.points = std::move(points);
    return instrument;
}

TEST(Correction, WithoutPointsOnlyConvertsTheUnit)
{
    EXPECT_EQ(Correction(PressureUnit::cmH2O).to_cmH2O(39.87), 39.87);
    EXPECT_NEAR(Correction(PressureUnit::hPa).to_cmH2O(39.2266), 40.0, 1e-12);
    EXPECT_EQ(Correction(PressureUnit::cmH2O, with_points({})).to_cmH2O(-12.3), -12.3);
}

TEST(Correction, GivesTheReferenceAtEachPoint)
{
    const Correction correction(PressureUnit::cmH2O, with_points({{-60, -60.05}, {0, 0.01}, {60, 60.08}}));
    EXPECT_NEAR(correction.to_cmH2O(-60.05), -60.0, 1e-12);
    EXPECT_NEAR(correction.to_cmH2O(0.01), 0.0, 1e-12);
    EXPECT_NEAR(correction.to_cmH2O(60.08), 60.0, 1e-12);
}

// Two-point correction: readings 0.12 at 0 and 40.31 at 40 give gain 0.995272456 and offset -0.119432695, so a reading
// of 20.20 is 19.985070913; taking off the zero alone would give 20.08.
TEST(Correction, IsAStraightLineBetweenTwoPoints)
{
    const Correction correction(PressureUnit::cmH2O, with_points({{0, 0.12}, {40, 40.31}}));
    EXPECT_NEAR(correction.to_cmH2O(20.20), 19.985070913, 5e-10);
    EXPECT_NEAR(correction.to_cmH2O(20.20), 0.995272456 * 20.20 - 0.119432695, 1e-8);
}

TEST(Correction, KeepsTheOutermostCorrectionBeyondThePoints)
{
    const Correction correction(PressureUnit::cmH2O, with_points({{0, 0.5}, {40, 41.0}}));
    EXPECT_NEAR(correction.to_cmH2O(61.0), 60.0, 1e-12);
    EXPECT_NEAR(correction.to_cmH2O(-39.5), -40.0, 1e-12);
}

TEST(Correction, BendsOnlyAtPoints)
{
    const Correction correction(PressureUnit::cmH2O, with_points({{-60, -60.5}, {0, 0.1}, {60, 60.3}}));
    double before = correction.to_cmH2O(-100.0);
    for (double reading = -99.9; reading <= 100.0; reading += 0.1) {
        const double now = correction.to_cmH2O(reading);
        EXPECT_NEAR(now - before, 0.1, 0.002) << reading;
        before = now;
    }
}

// Points are in the range's unit, readings in the line's: 39.2266 hPa read, 0.1 kPa too high at 4 kPa.
TEST(Correction, HandlesThreeUnitsAtOnce)
{
    const Correction correction(PressureUnit::hPa, with_points({{0, 0.1}, {4, 4.1}}, PressureUnit::kPa));
    EXPECT_NEAR(correction.to_cmH2O(39.2266), to_cmH2O(3.92266 - 0.1, PressureUnit::kPa), 1e-12);
}

} // namespace
} // namespace zeroline::trace
