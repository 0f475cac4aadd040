// What is asked, when, and what is never filled in for somebody; through the widgets, over a pseudo-terminal.

#include "tests/gui/window/driven_window.hpp"

#include "gui/session/simulated_bench.hpp"
#include "gui/window/file_choice.hpp"
#include "gui/window/order_form.hpp"

#include <QDoubleSpinBox>
#include <QTimer>

#include <nlohmann/json.hpp>

namespace zeroline::window {
namespace {

using std::chrono::seconds;
using testing::HasSubstr;
using testing::Not;

class AskedAndSaid : public DrivenWindow {
protected:
    /// A run on a bench that the window takes for an instrument like any other: nothing is read off it.
    void press_begin_on_a_port()
    {
        auto& start = window_->bench().start_page();
        start.choose_order(QString::fromStdString(short_order()));
        bench_ = std::make_unique<session::SimulatedBench>(start.order().meaning, start.instrument().meaning,
                                                           std::vector<std::string>{});
        start.choose_port(bench_->port());
        press("begin");
    }
    void begin_on_a_port()
    {
        press_begin_on_a_port();
        ASSERT_TRUE(shows("runPage")) << text("trouble");
    }
    void to_settings()
    {
        ASSERT_NO_FATAL_FAILURE(begin_on_a_port());
        press_key(Qt::Key_Space);
        ASSERT_TRUE(wait_for([&] { return shows("foundScroll"); }, seconds(5)));
    }
    [[nodiscard]] nlohmann::json run_log() const
    {
        std::ifstream in(session().part() / "run.json");
        return nlohmann::json::parse(in);
    }
    /// Every text that stands in a field of that page.
    [[nodiscard]] std::string texts_in(const char* page) const
    {
        std::string all;
        for (const auto* field : find<QWidget>(page)->findChildren<QLineEdit*>())
            all += field->text().toStdString() + "\n";
        return all;
    }

    std::unique_ptr<session::SimulatedBench> bench_;
};

TEST_F(AskedAndSaid, SettingsAsFoundAreEmptyUntilSomebodyTypesThemAndSpaceGoesOnFromANumber)
{
    ASSERT_NO_FATAL_FAILURE(to_settings());
    for (const char* name : {"foundInsufflation", "foundExsufflation", "foundInsufflationTime", "foundPauseTime"})
        EXPECT_EQ(find<QDoubleSpinBox>(name)->text(), QStringLiteral("\u2013")) << name;
    EXPECT_FALSE(run_log().contains("settings_found"));
    auto* pressure = find<QDoubleSpinBox>("foundInsufflation");
    pressure->setValue(35.0);
    find<QComboBox>("foundTrigger")->setCurrentIndex(1);
    find<QComboBox>("foundAlarms")->setCurrentIndex(1);
    const auto log = run_log();
    EXPECT_EQ(log.at("/settings_found/day/insufflation/pressure"_json_pointer), 35.0);
    EXPECT_EQ(log.at("/settings_found/day/trigger"_json_pointer), "on");
    EXPECT_FALSE(log.at("/settings_found/day"_json_pointer).contains("exsufflation")) << "nobody has read it";
    EXPECT_THAT(log.dump(), Not(HasSubstr("found-as-prescribed")));
    pressure->setFocus();
    press_key(Qt::Key_Space);
    EXPECT_TRUE(wait_for([&] { return place() == "Instrument"; }, seconds(5)));
}

TEST_F(AskedAndSaid, TheWheelChangesNoneOfTheSettingsAsFound)
{
    ASSERT_NO_FATAL_FAILURE(to_settings());
    expect_no_wheel_changes_anything();
    EXPECT_FALSE(run_log().contains("settings_found"));
}

TEST_F(AskedAndSaid, WhatTheUnitDisplaysIsAskedForWhileAPhaseIsHeldAndOnlyThen)
{
    ASSERT_NO_FATAL_FAILURE(to_settings());
    QTimer hand;
    QObject::connect(&hand, &QTimer::timeout, [&] { bench_->follow(session().view()); });
    hand.start(20);
    const auto fields = [&] {
        auto* field = window_->findChild<QDoubleSpinBox*>(QStringLiteral("heldInsufflation"));
        return field != nullptr && field->isVisible() ? field : nullptr;
    };
    press_key(Qt::Key_A);
    press_key(Qt::Key_Space);
    ASSERT_TRUE(wait_for([&] { return place() == "Instrument"; }, seconds(5)));
    EXPECT_EQ(fields(), nullptr);
    for (int word = 0; word < 3 && session().view().step != session::StepKind::manual; ++word) {
        press_key(Qt::Key_Space);
        wait_for([&] { return session().view().step == session::StepKind::manual; }, seconds(word == 0 ? 1 : 25));
    }
    ASSERT_TRUE(wait_for([&] { return fields() != nullptr; }, seconds(20))) << place() << ": " << text("sentence");
    EXPECT_EQ(fields()->text(), QStringLiteral("not read"));
    fields()->setValue(39.0);
    find<QDoubleSpinBox>("heldExsufflation")->setValue(38.0); // the sign stands in front
    ASSERT_EQ(session().displayed().size(), 1u);
    EXPECT_EQ(session().displayed()[0].insufflation_cmH2O, 39.0);
    EXPECT_EQ(session().displayed()[0].exsufflation_cmH2O, -38.0);
    ASSERT_TRUE(wait_for([&] { return session().view().step == session::StepKind::automatic; }, seconds(60)));
    EXPECT_TRUE(wait_for([&] { return fields() == nullptr; }, seconds(2))) << "the holds are over";
}

TEST_F(AskedAndSaid, OneKeySaysAllAsPrescribedAndTheRunLogNamesItAsThat)
{
    ASSERT_NO_FATAL_FAILURE(to_settings());
    press_key(Qt::Key_A);
    ASSERT_TRUE(wait_for([&] { return find<QDoubleSpinBox>("foundInsufflation")->value() == 40.0; }, seconds(5)));
    EXPECT_THAT(run_log().dump(), HasSubstr("found-as-prescribed"));
    find<QDoubleSpinBox>("foundPauseTime")->setValue(2.0);
    EXPECT_THAT(run_log().dump(), Not(HasSubstr("found-as-prescribed"))) << "a figure was typed since";
}

TEST_F(AskedAndSaid, NothingIsFilledInOnTheHandBackList)
{
    ASSERT_NO_FATAL_FAILURE(to_settings());
    press_key(Qt::Key_A);
    press_key(Qt::Key_Escape);
    ASSERT_TRUE(wait_for([&] { return place() == "Hand back"; }, seconds(5)));
    EXPECT_EQ(find<QDoubleSpinBox>("leftInsufflation")->text(), QStringLiteral("\u2013"));
    EXPECT_EQ(find<QDoubleSpinBox>("displayedInsufflation")->text(), QStringLiteral("not read"));
    expect_no_wheel_changes_anything();
}

TEST_F(AskedAndSaid, GivingBackIsTakenBackUntilThePlugIsOutAndEscapeClosesWhatIsOpenFirst)
{
    ASSERT_NO_FATAL_FAILURE(begin());
    press("checks");
    find<QWidget>("runPage")->setFocus();
    press_key(Qt::Key_Escape);
    EXPECT_EQ(place(), "Order") << "Escape closed the checklist";
    EXPECT_FALSE(find<QPushButton>("checks")->isChecked());
    press_key(Qt::Key_Escape);
    ASSERT_TRUE(wait_for([&] { return place() == "Hand back"; }, seconds(5)));
    press("takeBack");
    EXPECT_TRUE(wait_for([&] { return place() == "Order"; }, seconds(5)));
    EXPECT_TRUE(session().running());
}

TEST_F(AskedAndSaid, NewFormsHoldNothingOfTheDemonstration)
{
    press("orderNew");
    ASSERT_TRUE(shows("orderForm"));
    EXPECT_THAT(texts_in("orderForm"), Not(HasSubstr("demonstration")));
    for (const char* name : {"orderNumber", "customer", "contact", "unitAsset", "unitSerial", "reference", "basis"}) {
        EXPECT_EQ(find<QLineEdit>(name)->text(), QString()) << name;
        EXPECT_NE(find<QLineEdit>(name)->placeholderText(), QString()) << name;
    }
    press("orderCheck");
    EXPECT_THAT(text("orderTrouble"), HasSubstr("/")) << "it names what is missing by its place";
    press("orderCancel");
    press("instrumentNew");
    ASSERT_TRUE(shows("instrumentForm"));
    for (const char* name : {"instrumentName", "instrumentSerial", "certificate"})
        EXPECT_EQ(find<QLineEdit>(name)->text(), QString()) << name;
}

TEST_F(AskedAndSaid, AFileThatStillHoldsTheDemonstrationsValuesIsRefusedForARealPort)
{
    choose_the_demonstration();
    window_->bench().start_page().choose_port("/dev/null"); // there, and no pseudo-terminal
    press("begin");
    EXPECT_TRUE(shows("startPage"));
    EXPECT_THAT(text("trouble"), HasSubstr("is that of the demonstration"));
    window_->bench().start_page().choose_order(QString::fromStdString(short_order()));
    press("begin");
    EXPECT_THAT(text("trouble"), HasSubstr("PT-3310")) << "the instrument is that of the demonstration too";
}

TEST_F(AskedAndSaid, AnotherUnitThanTheOrdersStopsBeforeTheRunAndInIt)
{
    auto& start = window_->bench().start_page();
    start.choose_order(QString::fromStdString(short_order()));
    start.choose_port(session::PortsModel::kVirtualBench);
    scan("RC-9999");
    press("begin");
    EXPECT_TRUE(shows("startPage"));
    EXPECT_THAT(text("trouble"), HasSubstr("RC-9999"));
    scan("RC-0117");
    press("begin");
    ASSERT_TRUE(shows("runPage")) << text("trouble");
    find<QWidget>("runPage")->setFocus();
    scan("RC-9999");
    ASSERT_TRUE(shows("scanQuestion"));
    EXPECT_TRUE(find<QPushButton>("giveBack")->isVisible());
    EXPECT_TRUE(shows("trace")) << "the run goes on below the question";
    EXPECT_FALSE(find<QPushButton>("skip")->isVisible());
    const auto before = session().view().number;
    find<QWidget>("runPage")->setFocus();
    press_key(Qt::Key_Space);
    EXPECT_EQ(session().view().number, before) << "which unit it is comes first";
    press_key(Qt::Key_1); // another unit
    EXPECT_EQ(place(), "Hand back");
    const auto log = run_log();
    EXPECT_EQ(log.at("/checklist/0/item"_json_pointer), "unit scanned");
    EXPECT_EQ(log.at("/checklist/0/outcome"_json_pointer), "not-ok");
    EXPECT_THAT(log.at("/checklist/0/remark"_json_pointer).get<std::string>(), HasSubstr("RC-9999"));
}

TEST_F(AskedAndSaid, WhatSigningNeedsIsAskedBeforeTheRunOrTheRunIsNotToBeSealed)
{
    find<QLineEdit>("place")->clear();
    press_begin_on_a_port();
    EXPECT_TRUE(shows("startPage"));
    EXPECT_THAT(text("trouble"), HasSubstr("place"));
    press("beginUnsealed");
    EXPECT_TRUE(shows("runPage")) << text("trouble");
}

TEST_F(AskedAndSaid, OneKeyAnswersTheWholeChecklistAndEachItemIsStillDenied)
{
    window_->bench().start_page().choose_order(QString::fromStdString(short_order()));
    press("unfoldChecks");
    find<QComboBox>("startOutcome1")->setCurrentIndex(2);
    press("startAllInOrder");
    EXPECT_EQ(find<QComboBox>("startOutcome0")->currentIndex(), 1);
    EXPECT_EQ(find<QComboBox>("startOutcome1")->currentIndex(), 2) << "what was denied stays denied";
    EXPECT_EQ(find<QComboBox>("startOutcome3")->currentIndex(), 1);
}

} // namespace
} // namespace zeroline::window
