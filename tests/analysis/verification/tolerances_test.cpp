// Tolerances in all their forms, and which one is taken (docs/method.md, limits). Limits are worked out by hand.

#include "tests/analysis/verification/synthetic.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace zeroline::verification {
namespace {

using testing::DoubleEq;
using testing::Optional;

/// One line of the truth table: a tolerance as it stands in an order, a nominal value, the limits.
struct Line {
    const char* name;
    const char* json;
    double nominal, lower, upper;
};

class Limits : public testing::TestWithParam<Line> {};

WorkOrder order_with(const char* pressure)
{
    auto tree = nlohmann::json::parse(R"({"schema": "zeroline/work-order/1", "work_order": "W-1",
      "occasion": "pre-delivery", "customer": "ward", "unit": {"asset": "A-1", "serial": "S-1", "model": "paper unit"},
      "prescription": {"reference": "R-1", "presets": [
        {"name": "day", "insufflation": {"pressure": 40, "duration": 1.5},
         "exsufflation": {"pressure": -40, "duration": 1.5}, "pause": {"duration": 2.0}}]},
      "tolerances": {"basis": "paper manual"}, "decision_rule": "simple", "cycles": 5})");
    tree["tolerances"]["pressure"] = nlohmann::json::parse(pressure);
    return parse_work_order(tree);
}

TEST_P(Limits, are_as_worked_out_by_hand)
{
    const auto& line = GetParam();
    const auto order = order_with(line.json);
    const auto limits =
        tolerance_of(measurand::insufflation_pressure, order, HouseProfile::standard()).limits(line.nominal);
    EXPECT_THAT(limits.lower, Optional(DoubleEq(line.lower)));
    EXPECT_THAT(limits.upper, Optional(DoubleEq(line.upper)));
}

INSTANTIATE_TEST_SUITE_P(
    Forms, Limits,
    testing::Values(Line{"absolute", R"({"absolute": 2})", 40, 38, 42},
                    Line{"absolute_of_a_negative", R"({"absolute": 2})", -40, -42, -38},
                    Line{"relative", R"({"relative": 0.125})", 40, 35, 45},
                    Line{"relative_of_a_negative_goes_by_its_magnitude", R"({"relative": 0.125})", -40, -45, -35},
                    Line{"the_wider_by_default_relative", R"({"absolute": 2, "relative": 0.125})", 40, 35, 45},
                    Line{"the_wider_by_default_absolute", R"({"absolute": 2, "relative": 0.125})", 8, 6, 10},
                    Line{"sum", R"({"absolute": 2, "relative": 0.125, "combine": "sum"})", 40, 33, 47},
                    Line{"capped", R"({"absolute": 2, "relative": 0.125, "at_most": 4})", 40, 36, 44},
                    Line{"capped_sum", R"({"absolute": 2, "relative": 0.125, "combine": "sum", "at_most": 6})", 40, 34,
                         46},
                    Line{"below_its_cap", R"({"absolute": 2, "relative": 0.125, "at_most": 4})", 16, 14, 18},
                    Line{"lower_and_upper_apart", R"({"lower": 1, "upper": 5})", 40, 39, 45},
                    Line{"lower_is_towards_minus_infinity", R"({"lower": 1, "upper": 5})", -40, -41, -35}),
    [](const auto& tested) { return std::string(tested.param.name); });

TEST(OneSidedTolerance, leaves_the_other_side_open)
{
    const auto order = order_with(R"({"upper": 5})");
    const auto limits = tolerance_of(measurand::insufflation_pressure, order, HouseProfile::standard()).limits(40.0);
    EXPECT_FALSE(limits.lower);
    EXPECT_THAT(limits.upper, Optional(45.0));
}

TEST(TakenTolerance, is_the_orders_for_the_phase_then_the_orders_then_the_houses)
{
    const auto house = HouseProfile::standard();
    const auto order = order_with(R"({"absolute": 2, "insufflation": {"absolute": 1, "basis": "letter"}})");
    EXPECT_THAT(tolerance_of(measurand::insufflation_pressure, order, house).absolute, Optional(1.0));
    EXPECT_EQ(tolerance_of(measurand::insufflation_pressure, order, house).basis, "letter");
    EXPECT_THAT(tolerance_of(measurand::exsufflation_pressure, order, house).absolute, Optional(2.0));
    EXPECT_EQ(tolerance_of(measurand::exsufflation_pressure, order, house).basis, "paper manual");
    EXPECT_FALSE(tolerance_of(measurand::exsufflation_pressure, order, house).house);
    EXPECT_TRUE(tolerance_of(measurand::pause_duration, order, house).house);
    EXPECT_EQ(tolerance_of(measurand::pause_duration, order, house).basis,
              "house default, no published source, not approved");
}

TEST(TakenTolerance, is_taken_whole_and_gets_no_part_from_the_house)
{
    const auto order = order_with(R"({"absolute": 1})");
    const auto own = tolerance_of(measurand::insufflation_pressure, order, HouseProfile::standard());
    EXPECT_FALSE(own.relative);
    EXPECT_FALSE(own.at_most);
    EXPECT_THAT(own.limits(40.0).upper, Optional(41.0)) << "the house has 10 % beside its 2 cmH2O";
}

TEST(TakenTolerance, of_a_house_says_who_approved_it)
{
    auto house = HouseProfile::standard();
    house.approved_by = "head of department";
    EXPECT_EQ(tolerance_of(measurand::pause_residual, order_with(R"({"absolute": 1})"), house).basis,
              "house default, no published source, approved by head of department");
}

TEST(HouseProfile, has_the_figures_of_the_method)
{
    const auto order = order_with(R"({"absolute": 1})");
    const auto house = HouseProfile::standard();
    const auto width = [&](const std::string& name, double nominal) {
        return *tolerance_of(name, order, house).limits(nominal).upper - nominal;
    };
    EXPECT_DOUBLE_EQ(width(measurand::pause_duration, 0.5), 0.1);
    EXPECT_DOUBLE_EQ(width(measurand::pause_duration, 3.0), 0.3);
    EXPECT_DOUBLE_EQ(width(measurand::pause_residual, 0.0), 2.0);
    EXPECT_DOUBLE_EQ(width(measurand::displayed_insufflation, 40.0), 3.0);
    EXPECT_DOUBLE_EQ(width(measurand::oscillation_frequency, 10.0), 1.0);
    auto bare = order;
    bare.tolerances.pressure.reset();
    const auto pressure = tolerance_of(measurand::insufflation_pressure, bare, house);
    EXPECT_THAT(pressure.limits(15.0).upper, Optional(17.0));
    EXPECT_THAT(pressure.limits(30.0).upper, Optional(33.0));
    EXPECT_THAT(pressure.limits(70.0).upper, Optional(75.0));
    EXPECT_FALSE(limits_of(measurand::return_to_zero, bare.presets.front(), bare, house).upper) << "reported";
    EXPECT_FALSE(tolerance_of(measurand::oscillation_amplitude, bare, house).absolute) << "reported";
}

TEST(Prescribed, is_no_value_for_the_time_of_the_return_to_zero)
{
    const auto order = order_with(R"({"absolute": 1})");
    EXPECT_FALSE(nominal_of(measurand::return_to_zero, order.presets.front()));
    auto with_time = order;
    with_time.tolerances.zero = Tolerance{};
    with_time.tolerances.zero->within_s = 0.5;
    EXPECT_THAT(limits_of(measurand::return_to_zero, order.presets.front(), with_time, HouseProfile::standard()).upper,
                Optional(0.5));
}

} // namespace
} // namespace zeroline::verification
