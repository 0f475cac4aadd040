#include "analysis/verification/attempts.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace zeroline::verification {
namespace {

using metrology::Outcome;
using testing::Optional;

TEST(Attempts, a_later_pass_does_not_wipe_out_a_fail)
{
    EXPECT_THAT(standing_attempt({{1, Outcome::fail, {}}, {2, Outcome::pass, {}}}), Optional(0U));
}

TEST(Attempts, a_later_pass_replaces_a_fail_whose_cause_in_the_set_up_is_named_with_evidence)
{
    const Replaces plug{1, "plug", "leak test 0.2 cmH2O/s after a new plug"};
    EXPECT_THAT(standing_attempt({{1, Outcome::fail, {}}, {2, Outcome::pass, plug}}), Optional(1U));
    const Replaces claimed{1, "plug", ""};
    EXPECT_THAT(standing_attempt({{1, Outcome::fail, {}}, {2, Outcome::pass, claimed}}), Optional(0U));
}

TEST(Attempts, an_incomplete_run_says_nothing_once_a_later_one_is_complete)
{
    EXPECT_THAT(standing_attempt({{1, Outcome::incomplete, {}}, {2, Outcome::pass, {}}}), Optional(1U));
    EXPECT_THAT(standing_attempt({{1, Outcome::pass, {}}, {2, Outcome::incomplete, {}}}), Optional(1U));
}

TEST(Attempts, of_equal_ones_the_latest_stands)
{
    EXPECT_THAT(standing_attempt({{1, Outcome::pass, {}}, {2, Outcome::pass, {}}}), Optional(1U));
    EXPECT_EQ(standing_attempt({}), std::nullopt);
}

} // namespace
} // namespace zeroline::verification
