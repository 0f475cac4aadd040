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

TEST(Attempts, an_incomplete_run_says_nothing_where_another_is_complete)
{
    EXPECT_THAT(standing_attempt({{1, Outcome::incomplete, {}}, {2, Outcome::pass, {}}}), Optional(1U));
    EXPECT_THAT(standing_attempt({{1, Outcome::pass, {}}, {2, Outcome::incomplete, {}}}), Optional(0U));
}

TEST(Attempts, of_equal_ones_the_latest_stands)
{
    EXPECT_THAT(standing_attempt({{1, Outcome::pass, {}}, {2, Outcome::pass, {}}}), Optional(1U));
    EXPECT_EQ(standing_attempt({}), std::nullopt);
}

TEST(Attempts, only_a_pass_replaces_a_fail)
{
    const Replaces plug{1, "plug", "leak test 0.2 cmH2O/s after a new plug"};
    EXPECT_THAT(standing_attempt({{1, Outcome::fail, {}}, {2, Outcome::incomplete, plug}}), Optional(0U));
    EXPECT_THAT(standing_attempt({{1, Outcome::fail, {}}, {2, Outcome::pass, plug}, {3, Outcome::fail, {}}}),
                Optional(2U));
}

TEST(Attempts, are_told_in_a_sentence_which_one_stands_and_why)
{
    EXPECT_EQ(standing_sentence({{1, Outcome::fail, {}}}), "");
    EXPECT_EQ(standing_sentence({{1, Outcome::fail, {}}, {2, Outcome::pass, {}}}),
              "Attempt 1 stands: fail; attempt 2 names no cause in the set-up with its evidence.");
    const Replaces plug{1, "plug", "leak test 0.2 cmH2O/s after a new plug"};
    EXPECT_EQ(standing_sentence({{1, Outcome::fail, {}}, {2, Outcome::pass, plug}}),
              "Attempt 2 stands: pass; attempt 1 is replaced by attempt 2 (plug: leak test 0.2 cmH2O/s after a new "
              "plug).");
    EXPECT_EQ(standing_sentence({{1, Outcome::incomplete, {}}, {2, Outcome::conditional_pass, {}}}),
              "Attempt 2 stands: conditional pass; attempt 1 said nothing about the unit.");
}

} // namespace
} // namespace zeroline::verification
