#include "gui/console/exit_status.hpp"

#include <gtest/gtest.h>

namespace {

using namespace zeroline::console;
using zeroline::metrology::Outcome;
using zeroline::verification::Assessment;

TEST(ExitStatus, follows_the_outcome)
{
    EXPECT_EQ(status_of(Outcome::pass), ExitStatus::pass);
    EXPECT_EQ(status_of(Outcome::conditional_pass), ExitStatus::conditional_pass);
    EXPECT_EQ(status_of(Outcome::incomplete), ExitStatus::incomplete);
    EXPECT_EQ(status_of(Outcome::conditional_fail), ExitStatus::fail);
    EXPECT_EQ(status_of(Outcome::fail), ExitStatus::fail);
}

TEST(ExitStatus, follows_the_worse_of_the_two_verdicts)
{
    Assessment assessment;
    assessment.verdict = Outcome::pass;
    assessment.unit_accuracy = Outcome::fail;
    EXPECT_EQ(status_of(assessment), ExitStatus::fail);
    assessment.unit_accuracy = Outcome::conditional_pass;
    EXPECT_EQ(status_of(assessment), ExitStatus::conditional_pass);
}

TEST(ExitStatus, of_several_inputs_is_the_first_that_occurs_of_2_1_3_4_0)
{
    using enum ExitStatus;
    EXPECT_EQ(status_of(std::vector{pass, conditional_pass, incomplete, fail, wrong_input}), wrong_input);
    EXPECT_EQ(status_of(std::vector{pass, conditional_pass, incomplete, fail}), fail);
    EXPECT_EQ(status_of(std::vector{pass, conditional_pass, incomplete}), incomplete);
    EXPECT_EQ(status_of(std::vector{pass, conditional_pass}), conditional_pass);
    EXPECT_EQ(status_of(std::vector<ExitStatus>{}), pass);
}

} // namespace
