#include "acquisition/trace/likely_meaning.hpp"

#include <gtest/gtest.h>

#include <array>

namespace zeroline::trace {
namespace {

constexpr std::array<std::string_view, 4> kKeys{"presets", "ordered_on", "pressure", "absolute"};

TEST(LikelyMeaning, OfAKeyNearlyRightIsTheKey)
{
    EXPECT_EQ(meant_by_key("preset", kKeys), "; did you mean \"presets\"?");
    EXPECT_EQ(meant_by_key("presure", kKeys), "; did you mean \"pressure\"?");
    EXPECT_EQ(meant_by_key("orderd-on", kKeys), "; did you mean \"ordered_on\"?");
    EXPECT_EQ(meant_by_key("absolut", kKeys), "; did you mean \"absolute\"?");
}

TEST(LikelyMeaning, OfAKeyThatIsNothingLikeAnyIsNotGuessed)
{
    EXPECT_EQ(meant_by_key("colour", kKeys), "");
    EXPECT_EQ(meant_by_key("", kKeys), "");
    EXPECT_EQ(meant_by_key(std::string(5000, 'p'), kKeys), "");
    EXPECT_EQ(meant_by_key("preset", {}), "");
}

// The factors are those of NIST SP 811 (2008), appendix B.8: 1 cmH2O (conventional) is 98.0665 Pa.
TEST(LikelyMeaning, OfAnotherUnitIsToldWithItsFactor)
{
    EXPECT_EQ(conversion_of("40 mbar"), "; pressures stand in cmH2O, 1 mbar is 1.01972 cmH2O");
    EXPECT_EQ(conversion_of("40mmHg"), "; pressures stand in cmH2O, 1 mmHg is 1.35951 cmH2O");
    EXPECT_EQ(meant_by_key("pressure_hPa", kKeys), "; pressures stand in cmH2O, 1 hPa is 1.01972 cmH2O");
    EXPECT_EQ(conversion_of("40 cmH2O"), "");
    EXPECT_EQ(conversion_of("toolbar"), "");
    EXPECT_EQ(conversion_of("mbar"), "");
}

TEST(LikelyMeaning, OfADayThatIsNoneSaysWhy)
{
    EXPECT_EQ(no_day_because("2027-13-01"), "; there is no month 13");
    EXPECT_EQ(no_day_because("2027-02-29"), "; 2027-02 has 28 days");
    EXPECT_EQ(no_day_because("2028-02-29"), "");
    EXPECT_EQ(no_day_because("2027-04-31"), "; 2027-04 has 30 days");
    EXPECT_EQ(no_day_because("2027-04-00"), "; 2027-04 has 30 days");
    EXPECT_EQ(no_day_because("1.12.2026"), "");
}

} // namespace
} // namespace zeroline::trace
