// Pages and forms: keyboard, names, sizes, colours, and what they say.

#include "tests/gui/window/driven_window.hpp"
#include "tests/gui/window/page_checks.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/charts/trace_chart.hpp"
#include "gui/session/judgement_model.hpp"
#include "gui/window/hand_back_panel.hpp"
#include "gui/window/instrument_form.hpp"
#include "gui/window/language.hpp"
#include "gui/window/line_form.hpp"
#include "gui/window/number_cards.hpp"
#include "gui/window/numbers_table.hpp"
#include "gui/window/order_form.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/run_page.hpp"
#include "gui/window/skip_dialog.hpp"
#include "gui/window/start_page.hpp"
#include "gui/window/stop_page.hpp"
#include "gui/window/tone_colours.hpp"

#include <QClipboard>
#include <QDialog>
#include <QDoubleSpinBox>
#include <QMimeData>
#include <QPlainTextEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QSpinBox>
#include <QTranslator>

#include <nlohmann/json.hpp>

#include <set>

namespace zeroline::window {
namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;
using testing::HasSubstr;
using testing::IsEmpty;

class Pages : public DrivenWindow {
protected:
    void check_page() const { window::check_page(*window_); }
};

class AtTwiceTheFont : public Pages, public testing::WithParamInterface<const char*> {
protected:
    void SetUp() override
    {
        usual_ = application().font();
        auto font = usual_;
        font.setPointSizeF(2.0 * font.pointSizeF());
        QApplication::setFont(font);
        install_language(application(), QLatin1String(GetParam()));
        Pages::SetUp();
    }
    void TearDown() override
    {
        window_.reset();
        QApplication::setFont(usual_);
        for (auto* translator : application().findChildren<QTranslator*>())
            delete translator; // also takes it out
        QLocale::setDefault(QLocale::c());
    }
    void check_size(const char* page) const
    {
        const auto* shown = find<QWidget>(page);
        wait_for([&] { return cut_off(*shown).empty(); }, seconds(1)); // the layout follows a moment later
        EXPECT_LE(window_->minimumSizeHint().width(), 1024) << page;
        EXPECT_LE(window_->minimumSizeHint().height(), 700) << page;
        EXPECT_EQ(window_->size(), QSize(1024, 700)) << page;
        EXPECT_THAT(cut_off(*shown), IsEmpty()) << page;
    }

    QFont usual_;
};

TEST_P(AtTwiceTheFont, EveryPageFitsTheSmallestScreenAndNothingIsCut)
{
    window_->resize(1024, 700);
    check_size("startPage");
    choose_the_demonstration();
    press("orderEdit");
    check_size("orderForm");
    press("orderCancel");
    press("instrumentEdit");
    check_size("instrumentForm");
    press("instrumentCancel");
    ASSERT_NO_FATAL_FAILURE(begin());
    check_size("runPage");
    press("checks");
    check_size("runPage");
    press("checks");
    ASSERT_TRUE(wait_for([&] { return session().history().size() > 50; }, seconds(20)));
    press_key(Qt::Key_Escape);
    check_size("runPage");
    const auto* panel = window_->findChild<HandBackPanel*>();
    for (int i = 0; i < 10 && !panel->seen_to_the_end(); ++i) {
        EXPECT_TRUE(find<QPushButton>("handBackMore")->isVisible());
        press_key(Qt::Key_Space);
        ASSERT_EQ(place(), "Hand back") << "Space shows what is below before it means that all is back";
    }
    EXPECT_TRUE(panel->seen_to_the_end());
    EXPECT_FALSE(find<QPushButton>("handBackMore")->isVisible());
    press("notHandedBack");
    ASSERT_TRUE(wait_for([&] { return shows("resultPage"); }, seconds(20)));
    check_size("resultPage");
}

TEST_P(AtTwiceTheFont, VerdictsStayInSightAndNoNumberIsCutHoweverNarrowTheTableIs)
{
    const auto order = records::load_work_order(short_order()).meaning;
    for (const auto& columns : {session::JudgementModel::bench_columns(), session::JudgementModel::result_columns()}) {
        session::JudgementModel model(columns);
        model.begin(order, {});
        NumbersTable table("narrow", "narrow", &model);
        table.resize(2000, 300);
        table.show();
        EXPECT_THAT(table.left_out(), IsEmpty());
        table.resize(560, 300);
        EXPECT_TRUE(model.columnCount() == 5 || !table.left_out().isEmpty())
            << "the result has too many for this width";
        EXPECT_EQ(table.accessibleDescription().isEmpty(), table.left_out().isEmpty());
        for (int i = 0; i < model.columnCount(); ++i) {
            const auto column = model.column(i);
            if (column == session::JudgementModel::verdict || column == session::JudgementModel::measurand) {
                EXPECT_FALSE(table.isColumnHidden(i));
                EXPECT_LE(table.columnViewportPosition(i) + table.columnWidth(i), table.viewport()->width());
            } else if (!table.isColumnHidden(i)) {
                EXPECT_GE(table.columnWidth(i),
                          table.fontMetrics().horizontalAdvance(model.index(1, i).data().toString()));
            }
        }
    }
}

/// A tall table stood there, mostly empty.
TEST_P(AtTwiceTheFont, NumbersOfARunAreCardsOfWhichNoneIsCutAndThatScrollWhereThereIsNoHeight)
{
    session::JudgementModel model(session::JudgementModel::bench_columns());
    model.begin(records::load_work_order(short_order()).meaning, {});
    NumberCards cards("cards", "cards", &model);
    cards.resize(4 * cards.wanted_px(), 2000);
    cards.show();
    wait(milliseconds(100));
    const auto where = [&](int row) { return cards.visualRect(model.index(row, 0)); };
    EXPECT_EQ(where(0).top(), where(1).top()) << "two abreast";
    EXPECT_GT(where(1).left(), where(0).left());
    EXPECT_EQ(cards.verticalScrollBarPolicy(), Qt::ScrollBarAlwaysOff);
    for (int row = 0; row < model.rowCount(); ++row) {
        EXPECT_TRUE(cards.viewport()->rect().contains(where(row))) << row;
    }
    cards.resize(cards.wanted_px(), where(0).height());
    EXPECT_EQ(cards.verticalScrollBarPolicy(), Qt::ScrollBarAlwaysOn);
    EXPECT_THAT(model.index(0, 0).data(Qt::AccessibleTextRole).toString().toStdString(), HasSubstr("+40"));
    cards.resize(cards.wanted_px(), 2 * cards.fontMetrics().height() + 60);
    QCoreApplication::processEvents();
    const auto* more = cards.findChild<QLabel*>(QStringLiteral("moreNumbers"));
    EXPECT_TRUE(more->isVisible()) << "out of sight without a word";
    EXPECT_FALSE(more->geometry().intersects(cards.viewport()->geometry()));
    cards.verticalScrollBar()->setValue(cards.verticalScrollBar()->maximum());
    EXPECT_FALSE(more->isVisible());
    QTest::keyClick(&cards, Qt::Key_C, Qt::ControlModifier);
    EXPECT_TRUE(QGuiApplication::clipboard()->mimeData()->hasFormat("text/csv"));
}

TEST_P(AtTwiceTheFont, WhatStopsARunFitsTheSmallestScreen)
{
    StopPage page;
    page.show_sentence("Stopp. Ist jemand angeschlossen?",
                       "Den Schlauch jetzt von der Person abnehmen. Der Druck bewegt sich so, wie wenn jemand am "
                       "Schlauch atmet. Danach: nach der Person sehen, Stopfen und Messleitung abnehmen; dann "
                       "wiederholen, ohne dass jemand angeschlossen ist.",
                       "Wenn eine Person darauf angewiesen ist, jetzt Ersatz besorgen: service desk of the "
                       "demonstration, +00 000 0000.",
                       "Verstanden: erst die Person, dann sichern  [Leertaste]");
    page.resize(1024, 700);
    page.show();
    EXPECT_EQ(page.size(), QSize(1024, 700));
    EXPECT_TRUE(wait_for([&] { return cut_off(page).empty(); }, seconds(1)));
    EXPECT_THAT(cut_off(page), IsEmpty());
}

INSTANTIATE_TEST_SUITE_P(InEachLanguage, AtTwiceTheFont, testing::Values("en", "de"),
                         [](const auto& tested) { return std::string(tested.param); });

TEST_F(Pages, TheStartIsReachedByTabNamedAndLargeEnough) { check_page(); }

TEST_F(Pages, TheRegisterIsReachedByTabNamedAndLargeEnough)
{
    press("toRegister");
    ASSERT_TRUE(shows("registerPlace"));
    check_page();
}

TEST_F(Pages, TheOrderFormIsReachedByTabNamedAndLargeEnough)
{
    choose_the_demonstration();
    press("orderEdit");
    ASSERT_TRUE(shows("orderForm"));
    check_page();
}

TEST_F(Pages, TheInstrumentFormIsReachedByTabNamedAndLargeEnough)
{
    press("instrumentEdit");
    ASSERT_TRUE(shows("instrumentForm"));
    check_page();
}

TEST_F(Pages, ARunIsReachedByTabNamedAndLargeEnoughAndAScanReachesTheAssetFieldAlone)
{
    ASSERT_NO_FATAL_FAILURE(begin());
    check_page();
    window_->findChild<RunPage*>()->setFocus();
    scan("RC 0117G");
    EXPECT_EQ(place(), "Order");
    EXPECT_EQ(session().view().number, 0U);
    EXPECT_EQ(find<QLineEdit>("asset")->text(), "RC 0117G");
    EXPECT_THAT(text("scanned"), HasSubstr("not the unit"));
    find<QPushButton>("goOn")->setFocus();
    scan("RC-0117");
    EXPECT_EQ(session().view().number, 0U);
    EXPECT_THAT(text("scanned"), HasSubstr("the unit of this order"));
    press_key(Qt::Key_Escape);
    EXPECT_EQ(place(), "Hand back");
    EXPECT_THAT(find<QWidget>("steps")->accessibleDescription().toStdString(),
                HasSubstr("Hand back (not done: Order, Instrument, Zero, Block, Manual, Automatic, Zero again)"));
    check_page();
    find<QDoubleSpinBox>("displayedInsufflation")->setFocus();
    const double before = find<QDoubleSpinBox>("displayedInsufflation")->value();
    scan("4711");
    EXPECT_EQ(place(), "Hand back");
    EXPECT_EQ(find<QDoubleSpinBox>("displayedInsufflation")->value(), before);
    EXPECT_EQ(find<QLineEdit>("asset")->text(), "4711");
}

TEST_F(Pages, TheTraceIsZoomedFromTheRunAndHelpStandsBesideARunThatGoesOn)
{
    ASSERT_NO_FATAL_FAILURE(begin());
    const auto* chart = find<charts::TraceChart>("trace");
    press_key(Qt::Key_Plus);
    EXPECT_TRUE(wait_for([&] { return !chart->live(); }, seconds(5)));
    press_key(Qt::Key_End);
    EXPECT_TRUE(wait_for([&] { return chart->live(); }, seconds(5)));
    press("help");
    auto* help = find<QDialog>("helpBox");
    EXPECT_TRUE(find<QPlainTextEdit>("guide")->toPlainText().contains(QStringLiteral("# Doing a run")));
    EXPECT_TRUE(help->isVisible());
    EXPECT_FALSE(help->isModal());
    const auto samples = session().history().size();
    EXPECT_TRUE(wait_for([&] { return session().history().size() > samples; }, seconds(10)));
    help->close();
    ASSERT_TRUE(wait_for([&] { return QApplication::focusWidget() == find<QWidget>("runPage"); }, seconds(5)));
    press_key(Qt::Key_Space);
    EXPECT_TRUE(wait_for([&] { return session().view().number == 1; }, seconds(5)));
}

TEST_F(Pages, TheChecklistIsReachedByTabNamedAndLargeEnoughBeforeAndDuringARun)
{
    window_->bench().start_page().choose_order(QString::fromStdString(short_order()));
    press("unfoldChecks");
    check_page();
    ASSERT_NO_FATAL_FAILURE(begin());
    press("checks");
    check_page();
}

TEST_F(Pages, TheChecklistThatIsOpenedComesIntoSightAndALongPageSaysThatItGoesOn)
{
    window_->resize(1024, 700);
    window_->bench().start_page().choose_order(QString::fromStdString(short_order()));
    press("unfoldChecks");
    EXPECT_TRUE(wait_for([&] { return !find<QComboBox>("startOutcome1")->visibleRegion().isEmpty(); }, seconds(2)));
    auto* scroll = find<QScrollArea>("startScroll");
    auto* more = scroll->findChild<QLabel*>(QStringLiteral("goesOn"));
    scroll->verticalScrollBar()->setValue(0);
    EXPECT_TRUE(more->isVisible());
    EXPECT_FALSE(more->geometry().intersects(scroll->viewport()->geometry())) << "it covers nothing";
    scroll->verticalScrollBar()->setValue(scroll->verticalScrollBar()->maximum());
    EXPECT_FALSE(more->isVisible());
}

TEST_F(Pages, ASkipIsAskedForInADialogOfItsOwnThatIsNamedAndReachedByTab)
{
    ASSERT_NO_FATAL_FAILURE(begin());
    press_key(Qt::Key_S);
    auto* dialog = window_->findChild<SkipDialog*>();
    EXPECT_FALSE(dialog->isVisible()) << "a word about the person is never left out";
    say_the_three_words();
    ASSERT_TRUE(wait_for([&] { return place() == "Zero"; }, seconds(20)));
    press_key(Qt::Key_S);
    ASSERT_TRUE(dialog->isVisible());
    EXPECT_EQ(dialog->findChild<QLabel*>(QStringLiteral("skipWhat"))->text(), "Leave out: Zero");
    EXPECT_FALSE(dialog->findChild<QPushButton*>(QStringLiteral("skipNow"))->isEnabled()) << "without a reason";
    dialog->findChild<QLineEdit*>(QStringLiteral("skipReason"))->setText("no time");
    EXPECT_THAT(without_a_name(*window_), IsEmpty());
    EXPECT_THAT(too_small(*window_), IsEmpty());
    std::set<QString> reached;
    for (int i = 0; i < 5; ++i) {
        reached.insert(QApplication::focusWidget()->objectName());
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
    }
    EXPECT_EQ(reached.count("skipReason") + reached.count("skipNow") + reached.count("skipNot"), 3U);
    scan("RC-0117");
    EXPECT_EQ(dialog->findChild<QLineEdit*>(QStringLiteral("skipReason"))->text(), "no time")
        << "a scan reaches the asset alone";
    EXPECT_TRUE(dialog->isVisible());
    QTest::keyClick(dialog, Qt::Key_Escape);
    EXPECT_FALSE(dialog->isVisible());
    EXPECT_NE(place(), "Hand back") << "Escape closed the dialog, no more";
}

TEST_F(Pages, KeysOfAPersonReachTheFieldTheyAreTypedInto)
{
    auto* field = find<QLineEdit>("operator");
    field->clear();
    field->setFocus();
    for (const char letter : std::string("operator 3")) {
        QTest::keyClick(field, letter);
        wait(milliseconds(50));
    }
    EXPECT_TRUE(wait_for([&] { return field->text() == "operator 3"; }, seconds(5))) << field->text().toStdString();
}

TEST_F(Pages, AScannedUnitFindsItsOrder)
{
    const auto file = QString::fromStdString(short_order());
    session::RecentFiles(QStringLiteral("orders")).used(file);
    scan("RC-0117");
    EXPECT_EQ(window_->bench().start_page().order().meaning.work_order, "WO-7");
    scan("RC-9999");
    EXPECT_THAT(text("trouble"), HasSubstr("RC-9999"));
}

TEST_F(Pages, TheOrderFormSaysWhatTheFileWouldSay)
{
    choose_the_demonstration();
    press("orderEdit");
    auto* form = window_->findChild<OrderForm*>();
    ASSERT_NE(form, nullptr);
    EXPECT_TRUE(form->check());
    find<QDoubleSpinBox>("insufflationPressure")->setValue(90.0);
    press("orderCheck");
    EXPECT_THAT(text("orderTrouble"), HasSubstr("/prescription/presets/0/insufflation/pressure"));
    EXPECT_THAT(text("orderTrouble"), HasSubstr("70"));
    find<QDoubleSpinBox>("insufflationPressure")->setValue(35.0);
    EXPECT_TRUE(form->check()) << text("orderTrouble");
    EXPECT_EQ(find<QDoubleSpinBox>("exsufflationPressure")->text().left(1), "-");
    const auto file = folder_.filePath(QStringLiteral("made.json"));
    form->save_as(file);
    const auto read = records::load_work_order(file.toStdString());
    EXPECT_EQ(read.meaning.presets.front().insufflation.pressure_cmH2O, 35.0);
    EXPECT_EQ(read.meaning.presets.front().exsufflation.pressure_cmH2O, -40.0);
    EXPECT_EQ(window_->bench().start_page().order().meaning.presets.front().insufflation.pressure_cmH2O, 35.0);
}

TEST_F(Pages, AFormThatNobodyTouchedWritesTheOrderBackAsItWas)
{
    choose_the_demonstration();
    press("orderEdit");
    EXPECT_EQ(session::text_of(window_->findChild<OrderForm*>()->order().meaning),
              session::text_of(window_->bench().start_page().order().meaning));
    press("orderCancel");
    press("instrumentEdit");
    EXPECT_EQ(session::text_of(window_->findChild<InstrumentForm*>()->instrument().meaning),
              session::text_of(window_->bench().start_page().instrument().meaning));
}

TEST_F(Pages, TheInstrumentFormSaysWhatTheFileWouldSay)
{
    press("instrumentEdit");
    auto* form = window_->findChild<InstrumentForm*>();
    ASSERT_NE(form, nullptr);
    find<QLineEdit>("points")->setText("-60: -60,05; sixty: 1");
    EXPECT_FALSE(form->check());
    EXPECT_THAT(text("instrumentTrouble"), HasSubstr("sixty"));
    find<QLineEdit>("points")->setText("60: 60; -60: -60");
    EXPECT_FALSE(form->check());
    EXPECT_THAT(text("instrumentTrouble"), HasSubstr("/calibration/points"));
}

TEST_F(Pages, TheInstrumentFormWritesAndReadsEachLanguage)
{
    using Kind = trace::Language::Kind;
    for (const auto kind : {Kind::numeric_lines, Kind::scpi_query, Kind::modbus_rtu, Kind::polled_lines}) {
        press("instrumentEdit");
        auto* form = window_->findChild<InstrumentForm*>();
        auto* kinds = find<QComboBox>("language");
        kinds->setCurrentIndex(kinds->findData(static_cast<int>(kind)));
        const bool line = kind == Kind::polled_lines;
        EXPECT_EQ(find<QLineEdit>("lineQuery")->isEnabled(), line);
        EXPECT_EQ(find<QLineEdit>("lineQuery")->isVisible(), line || kind == Kind::numeric_lines);
        find<QLineEdit>("query")->setText(R"(PRES?\n)");
        find<QLineEdit>("lineQuery")->setText(R"(P\r)");
        find<QSpinBox>("field")->setValue(2);
        ASSERT_TRUE(form->check()) << text("instrumentTrouble");
        const auto written = form->instrument().meaning;
        EXPECT_EQ(written.language.kind, kind);
        if (line) {
            EXPECT_EQ(written.language.query, "P\r");
            EXPECT_EQ(written.language.field, 2);
        }
        const auto file = folder_.filePath("instrument.json");
        std::ofstream(file.toStdString()) << session::text_of(written);
        press("instrumentCancel");
        wait(std::chrono::milliseconds(20)); // the form goes
        window_->bench().start_page().choose_instrument(file);
        press("instrumentEdit");
        EXPECT_EQ(session::text_of(window_->findChild<InstrumentForm*>()->instrument().meaning),
                  session::text_of(written));
        EXPECT_EQ(find<QLineEdit>("lineQuery")->isEnabled(), line);
        press("instrumentCancel");
        wait(std::chrono::milliseconds(20));
    }
}

TEST_F(Pages, TroubleWithAFileOrAPortIsSaidWhereItIsChosen)
{
    window_->bench().start_page().choose_order("/nowhere/order.json");
    EXPECT_THAT(text("orderSummary"), HasSubstr("/nowhere/order.json"));
    EXPECT_FALSE(find<QPushButton>("begin")->isEnabled());
    window_->bench().start_page().choose_order(QString::fromStdString(short_order()));
    find<QComboBox>("ports")->setEditText("/dev/no-such-port");
    press("begin");
    EXPECT_THAT(text("trouble"), HasSubstr("/dev/no-such-port"));
    EXPECT_FALSE(std::filesystem::exists(records()) && !std::filesystem::is_empty(records()));
}

TEST(Look, WordsStandOnTheirColoursWithAContrastOfFourAndAHalfOrMore)
{
    application();
    for (const auto tone :
         {session::Tone::pass, session::Tone::conditional, session::Tone::fail, session::Tone::critical})
        EXPECT_GE(contrast(fill_of(tone), ink_on(tone, QPalette())), 4.5) << static_cast<int>(tone);
    for (const auto& [window, base] :
         {std::pair{QColor(Qt::white), QColor(Qt::white)}, {QColor(0x2B, 0x2B, 0x2B), QColor(0x20, 0x20, 0x20)}}) {
        QPalette palette(window);
        palette.setColor(QPalette::Base, base);
        const auto look = charts::look_of(palette, QFont());
        EXPECT_GE(contrast(look.trace, look.ground), 4.5);
    }
}

/// WCAG 2.1, 1.4.3 and its definition of contrast ratio: black on white is 21, equal colours 1.
TEST(Look, ContrastIsThatOfTheGuidelines)
{
    EXPECT_NEAR(contrast(Qt::black, Qt::white), 21.0, 1e-9);
    EXPECT_NEAR(contrast(Qt::red, Qt::red), 1.0, 1e-9);
    EXPECT_NEAR(contrast(QColor(0x77, 0x77, 0x77), Qt::white), 4.48, 0.005); // the best-known near miss
}

TEST(LineForm, WritesControlCharactersAsPeopleTypeThem)
{
    EXPECT_EQ(escaped("READ?\r\n"), "READ?\\r\\n");
    EXPECT_EQ(unescaped("READ?\\r\\n"), "READ?\r\n");
    EXPECT_EQ(unescaped(escaped("a\\b\tc")), "a\\b\tc");
}

} // namespace
} // namespace zeroline::window
