#include "gui/session/number_text.hpp"

#include <gtest/gtest.h>

namespace {

using namespace zeroline::session;

TEST(NumberText, is_the_shortest_that_reads_back)
{
    EXPECT_EQ(number_text(1.5), "1.5");
    EXPECT_EQ(number_text(-40.0), "-40");
    EXPECT_EQ(number_text(0.1 + 0.2), "0.30000000000000004");
    EXPECT_EQ(number_text(-0.0), "0");
}

TEST(NumberText, shows_the_sign_of_a_pressure)
{
    EXPECT_EQ(signed_text(40.0), "+40");
    EXPECT_EQ(signed_text(-40.0), "-40");
    EXPECT_EQ(signed_text(0.0), "0");
}

TEST(NumberText, never_writes_a_negative_zero)
{
    EXPECT_EQ(fixed_text(-0.004, 2), "0.00");
    EXPECT_EQ(signed_fixed_text(0.004, 2), "0.00");
    EXPECT_EQ(signed_fixed_text(-0.006, 2), "-0.01");
    EXPECT_EQ(signed_fixed_text(39.849, 1), "+39.8");
}

} // namespace
