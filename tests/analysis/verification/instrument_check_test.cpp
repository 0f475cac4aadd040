#include "analysis/verification/instrument_check.hpp"

#include "acquisition/trace/input_error.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

namespace zeroline::verification {
namespace {

using testing::HasSubstr;

InstrumentCheck check_of(double error_cmH2O, double uncertainty_cmH2O)
{
    InstrumentCheck check;
    check.on = "2026-03-02";
    check.due = "2026-05-31";
    check.gauge = "water column 2";
    check.gauge_uncertainty_cmH2O = 0.2;
    check.limit_basis = "house figure";
    for (const double gauge : {20.0, 40.0, -20.0, -40.0}) {
        check.points.push_back({gauge, gauge, uncertainty_cmH2O});
    }
    check.points[1].reading_cmH2O += error_cmH2O;
    return check;
}

InstrumentChecks checks_of(InstrumentCheck check)
{
    InstrumentChecks all{"transducer A", "0-1", {}};
    all.checks.push_back(std::move(check));
    return all;
}

std::string refusal_of(const nlohmann::json& tree)
{
    try {
        static_cast<void>(parse_instrument_checks(tree));
    } catch (const trace::InputError& error) {
        return error.what();
    }
    return {};
}

TEST(InstrumentCheck, an_error_beyond_the_limit_is_outside_whatever_its_sign)
{
    EXPECT_EQ(check_of(0.9, 0.2).outcome(), InstrumentCheck::Outcome::within);
    EXPECT_EQ(check_of(1.0, 0.2).outcome(), InstrumentCheck::Outcome::within) << "the limit itself is kept";
    EXPECT_EQ(check_of(1.1, 0.2).outcome(), InstrumentCheck::Outcome::outside);
    EXPECT_EQ(check_of(-1.1, 0.2).outcome(), InstrumentCheck::Outcome::outside);
    EXPECT_NEAR(check_of(-1.1, 0.2).largest_error_cmH2O(), -1.1, 1e-12);
}

TEST(InstrumentCheck, a_gauge_as_uncertain_as_the_limit_tells_only_what_is_far_outside)
{
    EXPECT_EQ(check_of(0.1, 1.5).outcome(), InstrumentCheck::Outcome::too_uncertain);
    EXPECT_EQ(check_of(2.0, 1.5).outcome(), InstrumentCheck::Outcome::too_uncertain);
    EXPECT_EQ(check_of(2.6, 1.5).outcome(), InstrumentCheck::Outcome::outside);
}

TEST(InstrumentCheck, a_run_says_when_it_was_and_how_far_off)
{
    const auto item = item_of(checks_of(check_of(-0.4, 0.2)), "2026-05-31", false);
    ASSERT_TRUE(item);
    EXPECT_EQ(item->outcome, ChecklistItem::Outcome::ok) << "good to the end of the due day";
    EXPECT_EQ(item->remark,
              "2026-03-02 against water column 2: at most -0.40 cmH2O off (limit 1, house figure), due 2026-05-31");
}

TEST(InstrumentCheck, one_that_is_overdue_says_so_and_one_that_failed_is_not_in_order)
{
    const auto overdue = item_of(checks_of(check_of(0.4, 0.2)), "2026-06-01", false);
    ASSERT_TRUE(overdue);
    EXPECT_EQ(overdue->outcome, ChecklistItem::Outcome::not_applicable);
    EXPECT_THAT(overdue->remark, HasSubstr("overdue since 2026-05-31"));
    const auto failed = item_of(checks_of(check_of(3.0, 0.2)), "2026-06-01", false);
    ASSERT_TRUE(failed);
    EXPECT_EQ(failed->outcome, ChecklistItem::Outcome::not_ok);
}

TEST(InstrumentCheck, what_was_simulated_says_nothing_of_a_real_instrument)
{
    auto all = checks_of(check_of(0.1, 0.2));
    all.checks.back().simulated = true;
    EXPECT_FALSE(item_of(all, "2026-03-03", false));
    EXPECT_TRUE(item_of(all, "2026-03-03", true));
    EXPECT_FALSE(item_of({}, "2026-03-03", false));
}

TEST(InstrumentCheck, reads_back_what_it_wrote_and_refuses_an_outcome_that_its_points_deny)
{
    const nlohmann::json tree = to_json(checks_of(check_of(3.0, 0.2)));
    EXPECT_EQ(to_json(parse_instrument_checks(tree)), to_json(checks_of(check_of(3.0, 0.2))));
    auto touched_up = tree;
    touched_up["checks"][0]["outcome"] = "within";
    EXPECT_EQ(refusal_of(touched_up), "/checks/0/outcome: \"within\"; expected outside, as its points say");
    auto one_sided = tree;
    one_sided["checks"][0]["points"].erase(3);
    EXPECT_THAT(refusal_of(one_sided), HasSubstr("/checks/0/points: 2 above zero and 1 below"));
}

// Days of the Gregorian calendar, ISO 8601.
TEST(InstrumentCheck, days_are_counted_over_months_and_leap_years)
{
    EXPECT_EQ(later_day("2026-03-02", 90), "2026-05-31");
    EXPECT_EQ(later_day("2028-02-28", 1), "2028-02-29");
    EXPECT_EQ(later_day("2026-12-31", 1), "2027-01-01");
}

} // namespace
} // namespace zeroline::verification
