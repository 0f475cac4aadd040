// What is done beside a run and after it, through the widgets, over a real pseudo-terminal: steps left out, checklist,
// as-left run, another attempt, printing, the next unit.

#include "tests/gui/window/driven_window.hpp"
#include "tests/gui/window/page_checks.hpp"

#include "gui/records/evidence_files.hpp"
#include "gui/session/simulated_bench.hpp"
#include "gui/window/printout.hpp"
#include "gui/window/result_page.hpp"
#include "gui/window/skip_dialog.hpp"
#include "gui/window/start_page.hpp"

#include <QDoubleSpinBox>
#include <QPrinter>
#include <QProcess>
#include <QSpinBox>

#include <nlohmann/json.hpp>

namespace zeroline::window {
namespace {

using std::chrono::seconds;
using testing::HasSubstr;
using testing::Not;

class BesideTheRun : public DrivenWindow {
protected:
    /// Keys go to the run: a window is active again a moment after a dialog in front of it is gone.
    void to_the_run()
    {
        auto* page = window_->findChild<QWidget*>(QStringLiteral("runPage"));
        page->setFocus();
        ASSERT_TRUE(wait_for([&] { return QApplication::focusWidget() == page; }, seconds(5)));
    }

    /// As a person does: the key, the reason, Enter.
    void leave_out(const char* reason)
    {
        to_the_run();
        press_key(Qt::Key_S);
        auto* dialog = window_->findChild<SkipDialog*>();
        // A key is held back until it is clear that no scanner types.
        ASSERT_TRUE(wait_for([&] { return dialog->isVisible(); }, seconds(5)));
        EXPECT_FALSE(dialog->isModal());
        auto* now = dialog->findChild<QPushButton*>(QStringLiteral("skipNow"));
        EXPECT_FALSE(now->isEnabled()) << "a reason is needed";
        dialog->findChild<QLineEdit*>(QStringLiteral("skipReason"))->setText(QLatin1String(reason));
        QTest::mouseClick(now, Qt::LeftButton);
        EXPECT_FALSE(dialog->isVisible());
    }

    /// Everything that takes long is left out: a complete run of a quarter of a minute, whose verdict is incomplete.
    void short_run()
    {
        ASSERT_NO_FATAL_FAILURE(begin());
        say_the_three_words();
        ASSERT_TRUE(wait_for([&] { return place() == "Zero" && session().history().size() > 50; }, seconds(30)));
        leave_out("a test");
        ASSERT_TRUE(wait_for([&] { return place() == "Manual"; }, seconds(60))) << text("sentence");
        leave_out("a test");
        ASSERT_EQ(place(), "Automatic");
        leave_out("a test");
        ASSERT_EQ(place(), "Zero again");
        to_the_run();
        press_key(Qt::Key_Space);
        leave_out("a test");
        ASSERT_EQ(place(), "Hand back");
        to_the_run();
        ASSERT_TRUE(hand_back_by_space());
    }

    [[nodiscard]] nlohmann::json record() const
    {
        std::ifstream in(window_->bench().result_page().shown_folder() / "record.json");
        return nlohmann::json::parse(in);
    }
};

TEST_F(BesideTheRun, AStepLeftOutAndAChecklistStandInTheRecordOfARunThatGoesOn)
{
    window_->bench().start_page().choose_order(QString::fromStdString(short_order()));
    press("unfoldChecks");
    find<QDoubleSpinBox>("startTemperature")->setValue(22.5);
    find<QDoubleSpinBox>("startInstrumentOn")->setValue(1.0);
    find<QComboBox>("startOutcome1")->setCurrentIndex(1);
    ASSERT_NO_FATAL_FAILURE(begin());
    EXPECT_FALSE(find<QPushButton>("skip")->isVisible()) << "nothing to leave out at a word";
    say_the_three_words();
    ASSERT_TRUE(wait_for([&] { return place() == "Manual"; }, seconds(60))) << text("sentence");
    leave_out("the unit has no manual mode");
    ASSERT_EQ(place(), "Automatic");
    press("checks");
    ASSERT_TRUE(find<QComboBox>("runOutcome0")->isVisible());
    EXPECT_EQ(find<QComboBox>("runOutcome1")->currentIndex(), 1) << "what the start page said";
    QTest::keyClick(find<QComboBox>("runOutcome0"), Qt::Key_Down); // "in order"
    find<QLineEdit>("runRemark0")->setText("clean");
    find<QLineEdit>("runRemark0")->editingFinished();
    press("checks");
    ASSERT_TRUE(wait_for([&] { return place() == "Zero again"; }, seconds(120))) << text("sentence");
    to_the_run();
    press_key(Qt::Key_Space);
    ASSERT_TRUE(wait_for([&] { return place() == "Hand back"; }, seconds(60))) << text("sentence");
    ASSERT_TRUE(hand_back_by_space());
    EXPECT_THAT(text("verdict"), HasSubstr("Within limits")) << text("why");
    EXPECT_THAT(text("notTested"), HasSubstr("the unit has no manual mode"));
    EXPECT_THAT(text("notTested"), HasSubstr("signs"));
    EXPECT_FALSE(find<QLineEdit>("keepOutReason")->isVisible()) << "nothing is said until somebody says it";
    find<QComboBox>("unitIs")->setCurrentIndex(2);
    ASSERT_TRUE(find<QLineEdit>("keepOutReason")->isVisible());
    find<QLineEdit>("keepOutReason")->setText("cord is cut");
    find<QLineEdit>("loaner")->setText("RC-0200");
    sign_and_save();
    EXPECT_THAT(text("toDo"), HasSubstr("kept out of use (cord is cut)"));
    EXPECT_THAT(text("toDo"), HasSubstr("Loaner arranged: RC-0200."));
    const auto saved = record();
    EXPECT_EQ(saved.at("/run/skipped/0/reason"_json_pointer), "the unit has no manual mode");
    EXPECT_EQ(saved.at("/run/environment/temperature_C"_json_pointer), 22.5);
    EXPECT_EQ(saved.at("/run/environment/instrument_on_s"_json_pointer), 60.0);
    EXPECT_EQ(saved.at("/run/disposition"_json_pointer),
              (nlohmann::json{{"unit", "kept-out"}, {"reason", "cord is cut"}, {"loaner", "RC-0200"}}));
    const auto& findings = saved.at("findings");
    EXPECT_TRUE(std::any_of(findings.begin(), findings.end(), [](const auto& one) {
        return one.at("code") == "not-warmed-up" && one.at("severity") == "caution";
    })) << "the demonstration's instrument asks for 300 s";
    EXPECT_EQ(saved.at("/run/checklist/0/item"_json_pointer), "outlet");
    EXPECT_EQ(saved.at("/run/checklist/0/remark"_json_pointer), "clean");
    EXPECT_EQ(saved.at("/run/checklist/1/outcome"_json_pointer), "ok");
}

TEST_F(BesideTheRun, AnAsLeftRunKeepsTheAsFoundOneAndTheNextUnitKnowsOfNeither)
{
    ASSERT_NO_FATAL_FAILURE(short_run());
    press("asLeft");
    EXPECT_THAT(text("told"), HasSubstr("save the as-found run first"));
    sign_and_save();
    const auto as_found = window_->bench().result_page().shown_folder();
    find<QLineEdit>("done")->setText("valve adjusted");
    press("asLeft");
    ASSERT_TRUE(shows("startPage"));
    EXPECT_THAT(text("prepared"), HasSubstr("as-found"));
    ASSERT_NO_FATAL_FAILURE(short_run());
    sign_and_save();
    EXPECT_TRUE(std::filesystem::exists(as_found / "record.json")) << "kept";
    const auto saved = record().dump();
    EXPECT_THAT(saved, HasSubstr("valve adjusted"));
    EXPECT_NE(window_->bench().result_page().shown_folder(), as_found);
    press("next");
    ASSERT_TRUE(shows("startPage"));
    EXPECT_FALSE(find<QLabel>("prepared")->isVisible());
}

TEST_F(BesideTheRun, AnUnsignedRunIsNeverLeftSilentlyAndIsOpenedAndSignedLater)
{
    ASSERT_NO_FATAL_FAILURE(short_run());
    const auto part = window_->bench().result_page().shown_folder();
    press("next");
    ASSERT_TRUE(shows("resultPage"));
    EXPECT_TRUE(find<QLabel>("leaving")->isVisible());
    EXPECT_FALSE(window_->close()) << "closing asks too";
    press("stay");
    press("leaveUnsigned");
    ASSERT_TRUE(shows("startPage"));
    EXPECT_TRUE(std::filesystem::exists(part));
    window_->bench().take_file(QString::fromStdString(part.string()));
    ASSERT_TRUE(shows("resultPage")) << text("trouble");
    EXPECT_THAT(text("seal"), HasSubstr("DRAFT"));
    sign_and_save();
    EXPECT_FALSE(std::filesystem::exists(part));
    EXPECT_TRUE(std::filesystem::exists(window_->bench().result_page().shown_folder() / "seal.json"));
    EXPECT_FALSE(find<QLabel>("seal")->isVisible()) << "it is sealed now";
}

TEST_F(BesideTheRun, OneClickSignsMakesThePdfAndGoesOnToTheNextUnit)
{
    ASSERT_NO_FATAL_FAILURE(short_run());
    const auto part = window_->bench().result_page().shown_folder();
    find<QLineEdit>("signer")->setText("operator 3");
    find<QLineEdit>("role")->setText("technician");
    press("saveNext");
    EXPECT_TRUE(shows("startPage")) << text("told");
    const std::filesystem::path sealed = part.parent_path() / part.stem();
    EXPECT_TRUE(std::filesystem::exists(sealed / "record.pdf")) << sealed;
    EXPECT_TRUE(std::filesystem::exists(sealed / "seal.json"));
}

TEST_F(BesideTheRun, AnotherAttemptNamesTheOneItReplacesItsCauseAndItsEvidence)
{
    ASSERT_NO_FATAL_FAILURE(short_run());
    sign_and_save();
    press("again");
    EXPECT_THAT(text("told"), HasSubstr("evidence"));
    ASSERT_TRUE(shows("resultPage"));
    auto* cause = find<QComboBox>("cause");
    cause->setCurrentIndex(cause->findData(QStringLiteral("plug")));
    find<QLineEdit>("evidence")->setText("it sat askew");
    press("again");
    ASSERT_TRUE(shows("startPage"));
    EXPECT_THAT(text("prepared"), HasSubstr("attempt 1"));
    ASSERT_NO_FATAL_FAILURE(short_run());
    sign_and_save();
    const auto saved = record();
    EXPECT_EQ(saved.at("attempt"), 2);
    EXPECT_EQ(saved.at("/run/replaces/attempt"_json_pointer), 1);
    EXPECT_EQ(saved.at("/run/replaces/cause"_json_pointer), "plug");
    EXPECT_EQ(saved.at("/run/replaces/evidence"_json_pointer), "it sat askew");
}

TEST_F(BesideTheRun, AnInstrumentIsListenedToAndItsSettingsAreFoundBesideItsForm)
{
    choose_the_demonstration();
    const auto& start = window_->bench().start_page();
    const session::SimulatedBench bench(start.order().meaning, start.instrument().meaning, {});
    find<QComboBox>("ports")->setEditText(QString::fromStdString(bench.port()));
    press("instrumentEdit");
    press("listen");
    ASSERT_TRUE(wait_for([&] { return text("listenSays").find(" Hz, lost 0") != std::string::npos; }, seconds(20)))
        << text("listenSays");
    EXPECT_THAT(text("listenSays"), HasSubstr("cmH2O"));
    press("listen"); // stops: one reader a port
    const auto field = find<QSpinBox>("field")->value();
    find<QSpinBox>("field")->setValue(field + 5);
    press("find");
    ASSERT_TRUE(wait_for([&] { return shows("takeFit"); }, seconds(60))) << text("listenSays");
    press("takeFit");
    EXPECT_EQ(find<QSpinBox>("field")->value(), field) << text("listenSays");
    press("instrumentCancel");
}

TEST_F(BesideTheRun, TheResultIsPrintedAndALabelIsRefusedWhereNothingPassed)
{
    ASSERT_NO_FATAL_FAILURE(short_run());
    EXPECT_FALSE(find<QPushButton>("print")->isEnabled()) << "what is not saved is not printed";
    check_page(*window_);
    sign_and_save();
    auto& page = window_->bench().result_page();
    const auto file = folder_.filePath(QStringLiteral("page.pdf"));
    EXPECT_TRUE(page.print_to(file)) << text("told");
    QProcess words;
    words.start(QStringLiteral("pdftotext"), {"-layout", file, "-"});
    ASSERT_TRUE(words.waitForFinished(20'000));
    const auto printed = QString::fromUtf8(words.readAllStandardOutput()).simplified().toStdString();
    EXPECT_THAT(printed, HasSubstr("RC-0117"));
    EXPECT_THAT(printed, HasSubstr("automatic cycles"));
    EXPECT_THAT(printed, HasSubstr("zero before (a test)"));
    EXPECT_THAT(printed, HasSubstr("SIMULATED"));
    // What goes to a printer is the same, whatever its resolution.
    const auto on_paper = folder_.filePath(QStringLiteral("printer.pdf"));
    {
        QPrinter printer(QPrinter::HighResolution);
        printer.setOutputFormat(QPrinter::PdfFormat);
        printer.setOutputFileName(on_paper);
        printer.setResolution(600);
        Printout{page.shown_folder(), QStringLiteral("record"), {}}.print(printer);
    }
    QProcess again;
    again.start(QStringLiteral("pdftotext"), {"-layout", on_paper, "-"});
    ASSERT_TRUE(again.waitForFinished(20'000));
    EXPECT_THAT(QString::fromUtf8(again.readAllStandardOutput()).simplified().toStdString(),
                HasSubstr("zero before (a test)"));
    find<QComboBox>("what")->setCurrentIndex(1);
    EXPECT_FALSE(page.print_to(folder_.filePath(QStringLiteral("label.pdf"))));
    EXPECT_THAT(text("told"), Not(HasSubstr("Saved")));
}

} // namespace
} // namespace zeroline::window
