#include "gui/console/typed_values.hpp"

#include "acquisition/trace/input_error.hpp"

#include <gmock/gmock.h>

namespace {

using namespace zeroline;
using namespace zeroline::console;
using testing::HasSubstr;
using trace::InputError;

template <typename Act> std::string trouble(Act act)
{
    try {
        static_cast<void>(act());
    } catch (const InputError& error) {
        return error.what();
    }
    return "no trouble";
}

verification::WorkOrder order_with(std::initializer_list<const char*> presets)
{
    verification::WorkOrder order;
    for (const auto* name : presets) {
        order.presets.emplace_back();
        order.presets.back().name = name;
    }
    return order;
}

TEST(NumberTyped, takes_point_comma_sign_and_blanks)
{
    EXPECT_EQ(number_typed("1.5", "x", 0, 10), 1.5);
    EXPECT_EQ(number_typed("1,5", "x", 0, 10), 1.5);
    EXPECT_EQ(number_typed(" +2 ", "x", 0, 10), 2.0);
    EXPECT_EQ(number_typed("-3", "x", -10, 10), -3.0);
}

TEST(NumberTyped, refuses_what_is_no_number_and_names_the_bounds)
{
    for (const auto* text : {"", " ", "x", "1x", "1.5.2", "nan", "inf", "1e999", "11", "-1", "+", "++1", "+-1"}) {
        EXPECT_THAT(trouble([&] { return number_typed(text, "--wait", 0, 10); }),
                    HasSubstr("--wait: '" + std::string(text) + "'; expected a number from 0 to 10"))
            << text;
    }
}

TEST(PressuresTyped, takes_the_pair_with_or_without_signs)
{
    for (const auto* text : {"+40/-40", "40/-40", "40/40", " 40 / -40 "}) {
        const auto pair = pressures_typed(text, "x");
        EXPECT_EQ(pair.insufflation_cmH2O, 40.0) << text;
        EXPECT_EQ(pair.exsufflation_cmH2O, -40.0) << text;
    }
}

TEST(PressuresTyped, refuses_a_negative_insufflation_and_a_single_value)
{
    EXPECT_NE(trouble([] { return pressures_typed("-40/-40", "x"); }), "no trouble");
    EXPECT_NE(trouble([] { return pressures_typed("40", "x"); }), "no trouble");
    EXPECT_NE(trouble([] { return pressures_typed("40/40/40", "x"); }), "no trouble");
}

TEST(DisplayedTyped, belongs_to_a_preset_of_the_order)
{
    const auto order = order_with({"day", "chest infection"});
    const auto displayed = displayed_typed("chest infection=+35/-45", order);
    EXPECT_EQ(displayed.preset, "chest infection");
    EXPECT_EQ(displayed.insufflation_cmH2O, 35.0);
    EXPECT_EQ(displayed.exsufflation_cmH2O, -45.0);
    EXPECT_EQ(displayed.shows, verification::Shows::live);
    EXPECT_THAT(trouble([&] { return displayed_typed("night=+35/-45", order); }), HasSubstr("day, chest infection"));
    EXPECT_THAT(trouble([&] { return displayed_typed("+35/-45", order); }), HasSubstr("PRESET="));
}

TEST(DisplayedTyped, a_preset_may_have_an_equals_sign_in_its_name)
{
    EXPECT_EQ(displayed_typed("a=b=1/2", order_with({"a=b"})).preset, "a=b");
}

TEST(SettingsTyped, takes_pressures_and_times)
{
    const auto settings = settings_typed("+35/-40 1.5/1,5/2", "x");
    EXPECT_EQ(settings.insufflation_pressure, 35.0);
    EXPECT_EQ(settings.exsufflation_pressure, -40.0);
    EXPECT_EQ(settings.exsufflation_duration, 1.5);
    EXPECT_EQ(settings.pause_duration, 2.0);
    EXPECT_FALSE(settings_typed("+35/-40", "x").insufflation_duration);
    EXPECT_NE(trouble([] { return settings_typed("+35/-40 1.5", "x"); }), "no trouble");
}

TEST(EnvironmentTyped, takes_any_of_the_four)
{
    const auto all = environment_typed("22.5C 1008hPa 41% 20min");
    EXPECT_EQ(all.instrument_on_s, 1200.0);
    EXPECT_EQ(all.temperature_C, 22.5);
    EXPECT_EQ(all.pressure_hPa, 1008.0);
    EXPECT_EQ(all.humidity_percent, 41.0);
    EXPECT_FALSE(environment_typed("").temperature_C);
    EXPECT_EQ(environment_typed("-5C").temperature_C, -5.0);
    for (const auto* text : {"warm", "22", "22F", "200C", "C", "41%%", "20m", "0min"}) {
        EXPECT_THAT(trouble([&] { return environment_typed(text); }), HasSubstr("--environment")) << text;
    }
}

TEST(ChecklistTyped, takes_item_outcome_and_remark)
{
    const auto fine = checklist_typed("intake filter=ok", "c");
    EXPECT_EQ(fine.item, "intake filter");
    EXPECT_EQ(fine.outcome, verification::ChecklistItem::Outcome::ok);
    EXPECT_EQ(fine.remark, "");
    const auto bad = checklist_typed("hose = not-ok: a crack: at the cuff", "c");
    EXPECT_EQ(bad.item, "hose");
    EXPECT_EQ(bad.outcome, verification::ChecklistItem::Outcome::not_ok);
    EXPECT_EQ(bad.remark, "a crack: at the cuff");
    for (const auto* text : {"", "hose", "=ok", "hose=", "hose=fine", "hose=not ok"}) {
        EXPECT_THAT(trouble([&] { return checklist_typed(text, "--check"); }), HasSubstr("--check")) << text;
    }
}

} // namespace
