#include "analysis/verification/procedure.hpp"

#include "acquisition/trace/input_error.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace zeroline::verification {
namespace {

using nlohmann::json;
using testing::ElementsAre;
using testing::StartsWith;

json good_procedure()
{
    return json::parse(R"({
      "$remark": "of the tests", "schema": "zeroline/procedure/1", "name": "ward round", "revision": "B",
      "steps": [
        {"kind": "nobody-connected"},
        {"kind": "check", "item": "case", "say": "Look at the case."},
        {"kind": "value", "item": "earth resistance", "unit": "ohm", "high": 0.3, "basis": "rule 7 of the tests"},
        {"kind": "settings-found"},
        {"kind": "zero"},
        {"kind": "plug"},
        {"kind": "each-preset", "steps": [{"kind": "manual"}, {"kind": "automatic", "power": "battery"},
                                          {"kind": "check", "item": "display steady"}, {"kind": "rest", "seconds": 30}]},
        {"kind": "confirm", "say": "Put the tool away."},
        {"kind": "zero-again"},
        {"kind": "hand-back"}]})");
}

std::string trouble_with(const json& tree)
{
    try {
        (void)parse_procedure(tree);
    } catch (const trace::InputError& error) {
        return error.what();
    }
    return "no trouble";
}

std::string trouble_with(const char* pointer, const json& value)
{
    auto tree = good_procedure();
    tree[json::json_pointer(pointer)] = value;
    return trouble_with(tree);
}

json without_step(std::size_t number)
{
    auto tree = good_procedure();
    tree["steps"].erase(number);
    return tree;
}

json with_step(std::size_t number, const json& step)
{
    auto tree = good_procedure();
    tree["steps"].insert(tree["steps"].begin() + static_cast<std::ptrdiff_t>(number), step);
    return tree;
}

} // namespace

TEST(Procedure, is_read_with_all_it_says)
{
    const auto procedure = parse_procedure(good_procedure());
    EXPECT_EQ(procedure.name, "ward round");
    EXPECT_EQ(procedure.steps.size(), 10U);
    EXPECT_EQ(procedure.steps[2].high, 0.3);
    EXPECT_FALSE(procedure.steps[2].low);
    EXPECT_EQ(procedure.steps[6].steps[1].power, "battery");
    EXPECT_THAT(checklist_items(procedure), ElementsAre("case", "earth resistance", "display steady"));
}

TEST(Procedure, looks_at_instrument_and_set_up_before_the_plug_and_at_strength_after_what_is_prescribed)
{
    auto tree = with_step(5, {{"kind", "instrument-check"}, {"points", {10, 50, -10, -50}}, {"every_days", 30}});
    const json leak_test{{"kind", "leak-test"}};
    const json strength{{"kind", "strength"}, {"orifice", "plate 2"}, {"diameter", 8}};
    tree["steps"].insert(tree["steps"].begin() + 6, leak_test);
    tree["steps"].insert(tree["steps"].begin() + 9, strength);
    const auto steps = parse_procedure(tree).steps;
    EXPECT_THAT(steps[5].points_cmH2O, ElementsAre(10.0, 50.0, -10.0, -50.0));
    EXPECT_EQ(steps[5].every_days, 30);
    EXPECT_EQ(steps[9].orifice, "plate 2");
    EXPECT_EQ(steps[9].cycles, 3);
    const auto refused = [](std::size_t number, const json& step) { return trouble_with(with_step(number, step)); };
    EXPECT_THAT(refused(4, leak_test), StartsWith("/steps/4/kind: leak-test here"));
    EXPECT_THAT(refused(6, json{{"kind", "instrument-check"}}), StartsWith("/steps/6/kind: instrument-check here"));
    EXPECT_THAT(refused(5, strength), StartsWith("/steps/5/kind: strength here"));
    EXPECT_THAT(refused(7, {{"kind", "strength"}, {"orifice", "a"}, {"diameter", 0.5}}),
                StartsWith("/steps/7/diameter: 0.5"));
    EXPECT_THAT(refused(5, {{"kind", "instrument-check"}, {"points", {10, 20, 30, -10}}}),
                StartsWith("/steps/5/points: 3 above zero and 1 below"));
    EXPECT_THAT(refused(5, {{"kind", "instrument-check"}, {"points", {1, 20, -30, -10}}}),
                StartsWith("/steps/5/points/0"));
    EXPECT_THAT(refused(5, {{"kind", "instrument-check"}, {"limit", 0.5}}), StartsWith("/steps/5/basis"));
}

TEST(Procedure, one_with_an_occasion_fits_orders_of_that_occasion_alone_one_without_fits_all)
{
    auto tree = good_procedure();
    EXPECT_TRUE(fits(parse_procedure(tree), Occasion::pre_delivery));
    tree["occasion"] = "home-visit";
    EXPECT_TRUE(fits(parse_procedure(tree), Occasion::home_visit));
    EXPECT_FALSE(fits(parse_procedure(tree), Occasion::pre_delivery));
    EXPECT_FALSE(fits(parse_procedure(tree), Occasion::periodic));
    EXPECT_THAT(trouble_with("/occasion", "birthday"), StartsWith("/occasion: "));
}

// Twenty and more that a department could write by mistake: each is refused with its place, in words.
TEST(Procedure, a_step_that_is_wrong_in_itself_is_refused_at_its_place)
{
    EXPECT_EQ(trouble_with("/schema", "zeroline/procedure/2").substr(0, 9), "/schema: ");
    EXPECT_EQ(trouble_with("/name", ""), "/name: an empty text; expected a text that is not empty");
    EXPECT_THAT(trouble_with("/colour", "blue"), StartsWith("/colour: unknown key; expected one of schema, name"));
    EXPECT_THAT(trouble_with("/steps/1/kind", "look"), StartsWith("/steps/1/kind: \"look\"; expected one of nobody"));
    EXPECT_THAT(trouble_with("/steps/1/item", ""), StartsWith("/steps/1/item: "));
    EXPECT_THAT(trouble_with("/steps/1/say", ""), StartsWith("/steps/1/say: "));
    EXPECT_THAT(trouble_with("/steps/1/seconds", 3), StartsWith("/steps/1/seconds: unknown key; "));
    EXPECT_THAT(trouble_with("/steps/2/low", 0.5), StartsWith("/steps/2/high: 0.3; expected at least low, 0.5"));
    EXPECT_THAT(trouble_with("/steps/2/high", "low"), StartsWith("/steps/2/high: \"low\"; expected a number"));
    EXPECT_THAT(trouble_with("/steps/2/basis", ""), StartsWith("/steps/2/basis: "));
    EXPECT_THAT(trouble_with("/steps/4/seconds", 5), StartsWith("/steps/4/seconds: unknown key; "));
    EXPECT_THAT(trouble_with("/steps/6/steps/1/power", "sun"), StartsWith("/steps/6/steps/1/power: \"sun\"; "));
    EXPECT_THAT(trouble_with("/steps/6/steps/3/seconds", 0), StartsWith("/steps/6/steps/3/seconds: 0; "));
    EXPECT_THAT(trouble_with("/steps/6/steps/3/kind", "zero"), StartsWith("/steps/6/steps/3/kind: \"zero\"; "));
    EXPECT_THAT(trouble_with("/steps/6/steps", json::array()), StartsWith("/steps/6/steps: 0 steps; "));
    EXPECT_THAT(trouble_with("/steps/6/steps/2/item", "case"),
                StartsWith("/steps/6/steps/2/item: \"case\" a second time; "));
    EXPECT_THAT(trouble_with("/steps/7/say", nullptr), StartsWith("/steps/7/say: null; "));
    EXPECT_THAT(trouble_with("/steps", "none"), StartsWith("/steps: "));
}

TEST(Procedure, a_value_with_limits_says_where_they_come_from)
{
    auto tree = good_procedure();
    tree["steps"][2].erase("basis");
    EXPECT_EQ(trouble_with(tree), "/steps/2/basis: missing; expected this key");
}

TEST(Procedure, steps_that_protect_or_prove_something_stand_in_their_order_and_none_is_left_out)
{
    constexpr std::size_t kFrame[] = {0, 3, 4, 5, 6, 8, 9};
    for (const auto number : kFrame) {
        EXPECT_THAT(trouble_with(without_step(number)), StartsWith("/steps")) << number;
    }
    EXPECT_THAT(trouble_with(without_step(3)),
                StartsWith("/steps/3/kind: \"zero\" here; expected first settings-found"));
    EXPECT_THAT(trouble_with(without_step(4)), StartsWith("/steps/4/kind: \"plug\" here; expected first zero"));
    EXPECT_THAT(trouble_with(without_step(9)), StartsWith("/steps: no step hand-back"));
    EXPECT_THAT(trouble_with(with_step(10, {{"kind", "confirm"}, {"say", "Go."}})),
                StartsWith("/steps/10: confirm after hand-back"));
    EXPECT_THAT(trouble_with(with_step(6, {{"kind", "zero"}})), StartsWith("/steps/6/kind: \"zero\" here"));
    EXPECT_THAT(trouble_with(with_step(10, {{"kind", "hand-back"}})), StartsWith("/steps/10/kind: "));
    EXPECT_THAT(trouble_with(with_step(1, {{"kind", "manual"}})), StartsWith("/steps/1/kind: \"manual\"; "));
    EXPECT_THAT(trouble_with(with_step(1, {{"kind", "rest"}, {"seconds", 5}})),
                StartsWith("/steps/1/kind: rest before the plug"));
}

TEST(Procedure, a_ladder_comes_after_what_is_prescribed_and_stays_within_reason)
{
    const json ladder{{"kind", "ladder"}, {"from", 20}, {"rise", 5}, {"durations", {0.5, 2}}, {"cycles", 3}};
    const auto procedure = parse_procedure(with_step(7, ladder));
    EXPECT_EQ(procedure.steps[7].rise_cmH2O, 5.0);
    EXPECT_EQ(procedure.steps[7].cycles, 3);
    EXPECT_THAT(procedure.steps[7].durations_s, ElementsAre(0.5, 2.0));
    EXPECT_FALSE(procedure.steps[7].to_cmH2O);
    EXPECT_THAT(trouble_with(with_step(6, ladder)), StartsWith("/steps/6/kind: ladder here; "));
    const auto spoiled = [&](const char* key, const json& value) {
        auto wrong = ladder;
        wrong[key] = value;
        return trouble_with(with_step(7, wrong));
    };
    EXPECT_THAT(spoiled("from", 90), StartsWith("/steps/7/from: 90; "));
    EXPECT_THAT(spoiled("rise", 0), StartsWith("/steps/7/rise: 0; "));
    EXPECT_THAT(spoiled("to", 10), StartsWith("/steps/7/to: 10; "));
    EXPECT_THAT(spoiled("durations", {0.1}), StartsWith("/steps/7/durations/0: 0.1; "));
    EXPECT_THAT(spoiled("cycles", 0), StartsWith("/steps/7/cycles: 0; "));
}

TEST(Procedure, every_preset_is_run_automatically)
{
    auto tree = good_procedure();
    tree["steps"][6]["steps"].erase(1);
    EXPECT_THAT(trouble_with(tree), StartsWith("/steps/6/steps: no step automatic; "));
}

} // namespace zeroline::verification
