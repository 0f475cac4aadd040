#include "gui/console/attempts_text.hpp"

#include <gtest/gtest.h>

namespace {

using namespace zeroline;
using namespace zeroline::console;
using metrology::Outcome;

records::KeptAttempt attempt(int number, Outcome verdict, std::optional<verification::Replaces> replaces = {},
                             const std::string& order = "WO-1")
{
    return {"folder", order, "RC-1", false, {number, verdict, std::move(replaces)}};
}

TEST(AttemptsText, says_which_attempt_stands)
{
    EXPECT_EQ(
        attempts_text({attempt(1, Outcome::fail), attempt(2, Outcome::pass)}),
        "WO-1, RC-1: attempt 1 fail, attempt 2 pass. Attempt 1 stands: fail; attempt 2 names no cause in the set-up "
        "with its evidence.");
    EXPECT_EQ(attempts_text({attempt(1, Outcome::fail), attempt(2, Outcome::pass, {{1, "plug", "it leaked"}})}),
              "WO-1, RC-1: attempt 1 fail, attempt 2 pass (in place of 1: plug). Attempt 2 stands: pass; attempt 1 is "
              "replaced by attempt 2 (plug: it leaked).");
}

TEST(AttemptsText, one_attempt_is_no_question)
{
    EXPECT_EQ(attempts_text({}), "");
    EXPECT_EQ(attempts_text({attempt(1, Outcome::fail)}), "");
}

TEST(AttemptsText, says_what_was_found_and_what_was_left)
{
    auto left = attempt(1, Outcome::pass);
    left.as_found = "abc";
    EXPECT_EQ(attempts_text({attempt(1, Outcome::fail), left}),
              "WO-1, RC-1: as found: attempt 1 fail. as left: attempt 1 pass.");
}

TEST(AttemptsText, says_what_does_not_count_and_what_is_not_proven)
{
    auto old = attempt(1, Outcome::pass);
    old.counts = records::Counts::unproven;
    auto forged = attempt(2, Outcome::fail);
    forged.counts = records::Counts::not_at_all;
    forged.why_not = "never sealed";
    EXPECT_EQ(attempts_text({old, forged}),
              "WO-1, RC-1: attempt 1 pass (unproven). Not counted: attempt 2 fail in folder (never sealed).");
}

TEST(AttemptsText, work_orders_are_kept_apart)
{
    EXPECT_EQ(
        all_attempts_text({attempt(2, Outcome::conditional_pass), attempt(1, Outcome::pass, {}, "WO-2"),
                           attempt(1, Outcome::incomplete)}),
        "WO-1, RC-1: attempt 1 incomplete, attempt 2 conditional pass. Attempt 2 stands: conditional pass; attempt 1 "
        "said nothing about the unit.\n");
}

} // namespace
