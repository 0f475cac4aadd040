#include "gui/console/range_watch.hpp"

#include <gmock/gmock.h>

namespace {

using namespace zeroline;
using testing::HasSubstr;

TEST(RangeWatch, tells_the_first_reading_beyond_the_range_and_counts_all)
{
    console::RangeWatch watch({-70.0, 70.0, 0.01, trace::PressureUnit::hPa});
    EXPECT_EQ(watch.take({{0.0, -71.0}, {0.1, 71.0}}), "") << "70 hPa are 71.38 cmH2O";
    const auto said = watch.take({{0.2, 40.0}, {0.3, 400.3}, {0.4, 72.0}});
    EXPECT_THAT(said, HasSubstr("+400.30 cmH2O lies beyond the range of the instrument file, -71.38 to +71.38"));
    EXPECT_EQ(watch.beyond(), 2u);
    EXPECT_EQ(watch.take({{0.5, -500.0}}), "") << "told once";
    EXPECT_EQ(watch.beyond(), 3u);
}

} // namespace
