#include "gui/register/suspected_instrument.hpp"

#include <gmock/gmock.h>

namespace zeroline::unit_register {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

Rows pressure(const std::string& asset, double target, double mean, const std::string& record = "last",
              const std::string& serial = "PT-1")
{
    return Rows{{"asset", asset},
                {"record_number", record},
                {"instrument_name", "bench"},
                {"instrument_serial", serial},
                {"target", target},
                {"mean", mean},
                {"mean_uncertainty", 0.4}};
}

/// Each unit at +40 and -40 cmH2O, read by that ratio.
Rows units_read_by(const std::vector<double>& ratios)
{
    auto rows = Rows::array();
    for (std::size_t i = 0; i < ratios.size(); ++i)
        for (const double target : {40.0, -40.0})
            rows.push_back(pressure("RC-" + std::to_string(i), target, ratios[i] * target));
    return rows;
}

// Cases worked out by hand: U of a ratio is 0.4 / 40 = 1 %.
TEST(SuspectedInstrument, IsTheOneByWhichDifferentUnitsAreOffByOneRatio)
{
    const auto suspected = suspected_instruments(units_read_by({1.030, 1.034, 1.028}));
    ASSERT_THAT(suspected, SizeIs(1));
    EXPECT_EQ(suspected[0].serial, "PT-1");
    EXPECT_EQ(suspected[0].units, 3u);
    EXPECT_NEAR(suspected[0].ratio, 1.0306667, 1e-6);
    EXPECT_NEAR(suspected[0].uncertainty, 0.01, 1e-12);
    EXPECT_THAT(suspicion(suspected[0]),
                HasSubstr("3 different units are off together, all by about +3.1 % (U 1.0 %)"));
}

TEST(SuspectedInstrument, IsNoneWhereUnitsDifferOrAreRightOrTooFew)
{
    EXPECT_THAT(suspected_instruments(units_read_by({1.06, 1.00, 1.03, 1.04})), IsEmpty()) << "each its own way";
    EXPECT_THAT(suspected_instruments(units_read_by({1.006, 1.007, 1.005, 1.006})), IsEmpty()) << "within U";
    EXPECT_THAT(suspected_instruments(units_read_by({1.03, 1.03})), IsEmpty()) << "two units";
    EXPECT_THAT(suspected_instruments(Rows::array()), IsEmpty());
}

TEST(SuspectedInstrument, IsJudgedByTheLastRecordOfEachUnitAndByPressuresThatAreNoZero)
{
    auto rows = units_read_by({1.03, 1.03, 1.03});
    for (int i = 0; i < 3; ++i)
        rows.push_back(pressure("RC-" + std::to_string(i), 40.0, 40.0, "later"));
    EXPECT_THAT(suspected_instruments(rows), IsEmpty()) << "all are right since";
    for (int i = 0; i < 3; ++i)
        rows.push_back(pressure("RC-" + std::to_string(i), 0.1, 0.3, "zeros", "PT-2"));
    EXPECT_THAT(suspected_instruments(rows), IsEmpty());
}

} // namespace
} // namespace zeroline::unit_register
