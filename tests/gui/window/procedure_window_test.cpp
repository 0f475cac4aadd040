// A procedure in the window, through its widgets, on the virtual bench over a real pseudo-terminal.

#include "tests/gui/window/driven_window.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::window {
namespace {

using nlohmann::json;
using std::chrono::seconds;
using testing::HasSubstr;

json asked(const char* kind, const char* item) { return {{"kind", kind}, {"item", item}}; }

class ProcedureInTheWindow : public DrivenWindow {
protected:
    void begin_with(const QString& procedure)
    {
        auto& page = window_->bench().start_page();
        page.choose_order(QString::fromStdString(short_order()));
        page.choose_port(session::PortsModel::kVirtualBench);
        page.choose_procedure(procedure);
        EXPECT_TRUE(find<QPushButton>("begin")->isEnabled()) << text("orderSummary");
        press("begin");
        ASSERT_TRUE(shows("runPage")) << text("trouble");
        press_key(Qt::Key_Space); // nobody is connected
    }
    [[nodiscard]] bool at(const char* item) const
    {
        return wait_for([&] { return shows("questionPage") && text("stepItem") == item; }, seconds(2));
    }
    /// The key, the remark that is then asked for, Enter.
    void answer(Qt::Key key, const char* remark)
    {
        press_key(key);
        ASSERT_TRUE(wait_for([&] { return find<QLineEdit>("stepRemark")->hasFocus(); }, seconds(2)));
        find<QLineEdit>("stepRemark")->setText(QLatin1String(remark));
        QTest::keyClick(find<QLineEdit>("stepRemark"), Qt::Key_Return);
    }
    void type_value(const char* typed)
    {
        find<QLineEdit>("stepValue")->setText(QLatin1String(typed));
        QTest::keyClick(find<QLineEdit>("stepValue"), Qt::Key_Return);
    }
    /// A procedure with one of each question, as a department writes it.
    [[nodiscard]] QString own_procedure() const
    {
        auto value = asked("value", "earth resistance");
        value.update({{"unit", "ohm"}, {"high", 0.3}, {"basis", "rule 7"}});
        const json steps{{{"kind", "nobody-connected"}},
                         asked("check", "case"),
                         value,
                         {{"kind", "settings-found"}},
                         {{"kind", "zero"}},
                         {{"kind", "plug"}},
                         {{"kind", "each-preset"}, {"steps", {{{"kind", "automatic"}}}}},
                         {{"kind", "zero-again"}},
                         {{"kind", "hand-back"}}};
        return kept(steps);
    }
    [[nodiscard]] QString kept(const json& steps) const
    {
        const auto file = folder_.filePath(QStringLiteral("own.json"));
        std::ofstream(file.toStdString())
            << json{{"schema", "zeroline/procedure/1"}, {"name", "own"}, {"revision", "1"}, {"steps", steps}};
        return file;
    }
};

TEST_F(ProcedureInTheWindow, HomeVisitIsLedFromTheFirstLookToTheSealedRecord)
{
    ASSERT_NO_FATAL_FAILURE(begin_with(QStringLiteral("home-visit")));
    ASSERT_TRUE(at("outlet")) << text("sentence");
    EXPECT_THAT(text("sentence"), HasSubstr("outlet sit tight"));
    EXPECT_THAT(find<QWidget>("steps")->accessibleDescription().toStdString(), HasSubstr("Checks"));
    press_key(Qt::Key_Space);
    ASSERT_TRUE(at("intake filter"));
    ASSERT_NO_FATAL_FAILURE(answer(Qt::Key_X, "this unit has none"));
    ASSERT_TRUE(at("hose"));
    press_key(Qt::Key_Space);
    ASSERT_TRUE(at("on a hard surface"));
    press_key(Qt::Key_Space);
    ASSERT_TRUE(wait_for([&] { return !shows("questionPage"); }, seconds(2)));
    press_key(Qt::Key_Space); // settings as found
    press_key(Qt::Key_Space); // line open
    ASSERT_TRUE(wait_for([&] { return place() == "Zero again"; }, seconds(120))) << text("sentence");
    press_key(Qt::Key_Space);
    ASSERT_TRUE(wait_for([&] { return place() == "Hand back"; }, seconds(60))) << text("sentence");
    ASSERT_TRUE(hand_back_by_space());
    ASSERT_NO_FATAL_FAILURE(sign_and_save());
    const auto folder = window_->bench().result_page().shown_folder();
    std::ifstream in(folder / "record.json");
    const auto record = json::parse(in);
    EXPECT_EQ(record["verdict"], "pass") << record["reasons"];
    ASSERT_EQ(record["run"]["checklist"].size(), 4U);
    EXPECT_EQ(record["run"]["checklist"][1]["outcome"], "not-applicable");
    EXPECT_EQ(record["run"]["checklist"][1]["remark"], "this unit has none");
    std::ifstream manifest(folder / "manifest.sha256");
    EXPECT_THAT(std::string(std::istreambuf_iterator<char>(manifest), {}), HasSubstr("procedure.json"));
}

TEST_F(ProcedureInTheWindow, AsksForRemarkAndValueAndTheListBesideTheRunPutsASlipRight)
{
    ASSERT_NO_FATAL_FAILURE(begin_with(own_procedure()));
    ASSERT_TRUE(at("case"));
    press_key(Qt::Key_S);
    EXPECT_FALSE(shows("skipDialog")) << "it has its own key for what does not apply";
    ASSERT_NO_FATAL_FAILURE(answer(Qt::Key_N, "a crack"));
    ASSERT_TRUE(at("earth resistance"));
    EXPECT_THAT(text("stepLimits"), HasSubstr("at most 0.3 ohm (rule 7)"));
    expect_no_wheel_changes_anything();
    type_value("much");
    EXPECT_THAT(text("stepTold"), HasSubstr("A number is expected"));
    type_value("0,35");
    EXPECT_THAT(text("stepTold"), HasSubstr("outside the limits"));
    EXPECT_TRUE(at("earth resistance")) << "a slip of the finger would fail the unit";
    type_value("0,25");
    ASSERT_TRUE(wait_for([&] { return !shows("questionPage"); }, seconds(2)));
    const auto list = session().checklist();
    ASSERT_EQ(list.size(), 2U);
    EXPECT_EQ(list[0].remark, "a crack");
    EXPECT_EQ(list[1].remark, "0.25 ohm (at most 0.3, rule 7)");
    // The list beside the run shows both answers; there a slip is put right.
    press("checks");
    expect_no_wheel_changes_anything();
    auto boxes = window_->findChild<QWidget*>(QStringLiteral("runPage"))->findChildren<QComboBox*>();
    boxes.removeIf([](const QComboBox* box) { return box->accessibleName() != QLatin1String("case: outcome"); });
    ASSERT_EQ(boxes.size(), 1);
    EXPECT_EQ(boxes.front()->currentText(), QStringLiteral("not in order"));
    boxes.front()->setCurrentIndex(1);
    Q_EMIT boxes.front()->activated(1);
    EXPECT_EQ(session().checklist().front().outcome, verification::ChecklistItem::Outcome::ok);
    press_key(Qt::Key_Escape);
    press_key(Qt::Key_Escape);
    EXPECT_TRUE(wait_for([&] { return place() == "Hand back"; }, seconds(2)));
}

TEST_F(ProcedureInTheWindow, LeavesOutTheGaugeThatIsNotThereAndFollowsTheLeakTest)
{
    json steps = json::array();
    for (const auto* kind : {"nobody-connected", "settings-found", "zero", "instrument-check", "leak-test", "plug",
                             "each-preset", "zero-again", "hand-back"})
        steps.push_back({{"kind", kind}});
    steps[6]["steps"] = {{{"kind", "automatic"}}};
    ASSERT_NO_FATAL_FAILURE(begin_with(kept(steps)));
    press_key(Qt::Key_Space); // settings as found
    press_key(Qt::Key_Space); // line open
    ASSERT_TRUE(wait_for([&] { return shows("questionPage"); }, seconds(40))) << text("sentence");
    EXPECT_EQ(text("stepItem"), "instrument check");
    EXPECT_THAT(text("sentence"), HasSubstr("names no second gauge"));
    EXPECT_FALSE(find<QLineEdit>("stepValue")->isVisible()) << "there is nothing to read";
    ASSERT_NO_FATAL_FAILURE(answer(Qt::Key_X, "no gauge here"));
    ASSERT_TRUE(wait_for([&] { return place() == "Leak test"; }, seconds(2))) << text("sentence");
    ASSERT_TRUE(wait_for([&] { return place() == "Block"; }, seconds(60))) << text("sentence");
    EXPECT_EQ(session().checklist().front().remark, "not done: no gauge here");
    press_key(Qt::Key_Escape);
    EXPECT_TRUE(wait_for([&] { return place() == "Hand back"; }, seconds(2)));
}

TEST_F(ProcedureInTheWindow, OneThatIsWrongIsRefusedWithItsPlaceBeforeTheRunBegins)
{
    const auto file = folder_.filePath(QStringLiteral("wrong.json"));
    std::ofstream(file.toStdString())
        << R"({"schema": "zeroline/procedure/1", "name": "n", "revision": "1", "steps": [{"kind": "wish"}]})";
    auto& page = window_->bench().start_page();
    page.choose_order(QString::fromStdString(short_order()));
    page.choose_procedure(file);
    EXPECT_FALSE(find<QPushButton>("begin")->isEnabled());
    EXPECT_THAT(text("orderSummary"), HasSubstr("/steps/0/kind: \"wish\""));
    page.choose_procedure(QStringLiteral("home-visit"));
    EXPECT_TRUE(find<QPushButton>("begin")->isEnabled());
    EXPECT_THAT(text("procedureSummary"), HasSubstr("home-visit, revision 2; items asked about: 4"));
}

TEST_F(ProcedureInTheWindow, OneForAnotherOccasionThanTheOrderStopsTheBeginningUntilThatIsSettled)
{
    auto& page = window_->bench().start_page();
    page.choose_order(QString::fromStdString(short_order())); // for a home visit
    page.choose_port(session::PortsModel::kVirtualBench);
    page.choose_procedure(QStringLiteral("periodic"));
    EXPECT_FALSE(find<QPushButton>("begin")->isEnabled());
    for (const auto* label : {"procedureSummary", "trouble"}) {
        EXPECT_THAT(text(label), HasSubstr("The order is for: home visit. The procedure is for: periodic.")) << label;
        EXPECT_TRUE(find<QLabel>(label)->isVisible());
    }
    EXPECT_THROW(static_cast<void>(page.set_up()), trace::InputError) << "whatever the button does";
    for (const auto* fits : {"home-visit", "guided"}) {
        page.choose_procedure(QLatin1String(fits));
        EXPECT_TRUE(find<QPushButton>("begin")->isEnabled()) << fits;
        EXPECT_EQ(text("trouble"), "");
    }
}

} // namespace
} // namespace zeroline::window
