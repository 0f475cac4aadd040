#include "analysis/metrology/decision.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace zeroline::metrology {
namespace {

using enum Outcome;
constexpr double kEndless = std::numeric_limits<double>::infinity();
const Limits kNone{}, kBoth{38.0, 42.0}, kUpper{std::nullopt, 2.0}, kLower{3.0, std::nullopt};

TEST(Decision, takes_a_value_on_a_limit_for_inside)
{
    EXPECT_EQ(decide(38.0, 0.5, kBoth, Rule::simple), pass);
    EXPECT_EQ(decide(42.0, 0.5, kBoth, Rule::simple), pass);
    EXPECT_EQ(decide(std::nextafter(42.0, 43.0), 0.5, kBoth, Rule::simple), fail);
    EXPECT_EQ(decide(std::nextafter(38.0, 37.0), 0.5, kBoth, Rule::simple), fail);
}

TEST(Decision, by_guarded_acceptance_has_four_outcomes_on_both_sides)
{
    const auto of = [](double value) { return decide(value, 0.5, kBoth, Rule::guarded); };
    EXPECT_EQ(of(40.0), pass);
    EXPECT_EQ(of(41.5), pass);
    EXPECT_EQ(of(41.75), conditional_pass);
    EXPECT_EQ(of(42.0), conditional_pass);
    EXPECT_EQ(of(42.25), conditional_fail);
    EXPECT_EQ(of(42.5), conditional_fail);
    EXPECT_EQ(of(42.75), fail);
    EXPECT_EQ(of(38.5), pass);
    EXPECT_EQ(of(38.25), conditional_pass);
    EXPECT_EQ(of(37.75), conditional_fail);
    EXPECT_EQ(of(37.25), fail);
}

TEST(Decision, with_U_larger_than_the_tolerance_never_passes_plainly_when_guarded)
{
    EXPECT_EQ(decide(40.0, 2.5, kBoth, Rule::guarded), conditional_pass);
}

TEST(Decision, without_limits_is_none)
{
    EXPECT_EQ(decide(40.0, 0.5, kNone, Rule::simple), not_judged);
    EXPECT_TRUE(std::isinf(margin(40.0, kNone)));
    EXPECT_EQ(ratio(kNone, 0.5), std::nullopt);
    EXPECT_EQ(probability_outside(40.0, 0.25, kEndless, kNone), 0.0);
}

TEST(Decision, with_one_limit_minds_that_one_only)
{
    EXPECT_EQ(decide(-1000.0, 0.5, kUpper, Rule::simple), pass);
    EXPECT_EQ(decide(2.1, 0.5, kUpper, Rule::simple), fail);
    EXPECT_EQ(decide(2.9, 0.5, kLower, Rule::simple), fail);
    EXPECT_EQ(decide(1000.0, 0.5, kLower, Rule::guarded), pass);
}

// 40, -1/+5: the smallest margin decides, not the largest deviation.
TEST(Margin, of_39_2_is_smaller_than_of_43_for_40_minus_1_plus_5)
{
    const Limits limits{39.0, 45.0};
    EXPECT_NEAR(margin(39.2, limits), 0.2, 1e-12);
    EXPECT_NEAR(margin(43.0, limits), 2.0, 1e-12);
}

TEST(Ratio, is_tolerance_over_expanded_uncertainty)
{
    EXPECT_DOUBLE_EQ(ratio(kBoth, 0.5).value(), 4.0);
    EXPECT_DOUBLE_EQ(ratio(kUpper, 0.5).value(), 4.0);
    EXPECT_DOUBLE_EQ(ratio(kLower, 0.5).value(), 6.0);
    EXPECT_EQ(ratio(kBoth, 0.0), std::nullopt);
}

TEST(Probability, of_a_value_on_one_of_two_far_limits_is_a_half)
{
    EXPECT_NEAR(probability_outside(42.0, 0.1, kEndless, kBoth), 0.5, 1e-12);
    EXPECT_NEAR(probability_outside(42.0, 0.1, 3.0, kBoth), 0.5, 1e-3);
}

TEST(Probability, counts_both_tails)
{
    const double one = probability_outside(40.0, 1.0, kEndless, {std::nullopt, 42.0});
    EXPECT_NEAR(probability_outside(40.0, 1.0, kEndless, kBoth), 2.0 * one, 1e-12);
}

TEST(Probability, without_uncertainty_is_certain)
{
    EXPECT_EQ(probability_outside(42.0, 0.0, kEndless, kBoth), 0.0);
    EXPECT_EQ(probability_outside(42.1, 0.0, kEndless, kBoth), 1.0);
}

TEST(Probability, far_inside_keeps_its_small_digits)
{
    EXPECT_NEAR(probability_outside(38.0 + 6.0, 1.0, kEndless, {38.0, std::nullopt}), 9.865876e-10, 1e-15);
}

TEST(Outcomes, are_ordered_from_pass_to_fail)
{
    EXPECT_EQ(worse(pass, conditional_pass), conditional_pass);
    EXPECT_EQ(worse(incomplete, conditional_pass), incomplete);
    EXPECT_EQ(worse(incomplete, conditional_fail), conditional_fail);
    EXPECT_EQ(worse(fail, conditional_fail), fail);
    EXPECT_EQ(worse(not_judged, pass), pass);
}

TEST(Outcomes, have_the_words_of_the_record)
{
    EXPECT_EQ(word_of(not_judged), "not-judged");
    EXPECT_EQ(word_of(conditional_pass), "conditional-pass");
    EXPECT_EQ(word_of(conditional_fail), "conditional-fail");
    EXPECT_EQ(word_of(incomplete), "incomplete");
    EXPECT_EQ(word_of(Rule::guarded), "guarded");
}

} // namespace
} // namespace zeroline::metrology
