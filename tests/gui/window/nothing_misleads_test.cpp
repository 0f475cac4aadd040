// What nobody may overlook, and what a hand must not change by accident.

#include "tests/gui/window/driven_window.hpp"

#include "gui/charts/picture_view.hpp"
#include "gui/charts/trace_chart.hpp"
#include "gui/records/json_file.hpp"
#include "gui/session/run_files.hpp"
#include "gui/window/numbers_table.hpp"
#include "gui/window/stop_page.hpp"
#include "gui/window/wiring_view.hpp"

#include <QClipboard>
#include <QDragEnterEvent>
#include <QGraphicsScene>
#include <QGraphicsSimpleTextItem>
#include <QHeaderView>
#include <QImage>
#include <QMimeData>
#include <QPrintDialog>
#include <QScrollArea>
#include <QScrollBar>
#include <QTableView>
#include <QTimer>
#include <QUrl>

#include <pty.h>
#include <sys/stat.h>
#include <unistd.h>

namespace zeroline::window {
namespace {

using std::chrono::seconds;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

const std::filesystem::path kRecords = ZEROLINE_SOURCE_DIR "/tests/gui/records/method_1";

class NothingMisleads : public DrivenWindow {
protected:
    void drop(const std::filesystem::path& file) const
    {
        QMimeData data;
        data.setUrls({QUrl::fromLocalFile(QString::fromStdString(file.string()))});
        auto& bench = window_->bench();
        QDragEnterEvent enter({10, 10}, Qt::CopyAction, &data, Qt::LeftButton, {});
        QCoreApplication::sendEvent(&bench, &enter);
        if (!enter.isAccepted())
            return;
        QDropEvent event({10, 10}, Qt::CopyAction, &data, Qt::LeftButton, {});
        QCoreApplication::sendEvent(&bench, &event);
    }
};

TEST_F(NothingMisleads, TheWheelChangesNoValueAndNoChoiceOfAnyForm)
{
    window_->bench().start_page().choose_order(QString::fromStdString(short_order()));
    choose_the_demonstration();
    press("unfoldChecks");
    expect_no_wheel_changes_anything();
    choose_the_demonstration();
    press("orderEdit");
    expect_no_wheel_changes_anything();
    press("orderCancel");
    press("instrumentEdit");
    expect_no_wheel_changes_anything();
    press("instrumentCancel");
    drop(kRecords / "fail");
    expect_no_wheel_changes_anything();
    press("toRegister");
    expect_no_wheel_changes_anything();
}

TEST_F(NothingMisleads, AnOrderIsChosenByADeliberateActForEachUnit)
{
    auto& start = window_->bench().start_page();
    start.choose_order(QString::fromStdString(short_order()));
    start.remember();
    window_ = std::make_unique<MainWindow>();
    window_->show();
    auto* orders = find<QComboBox>("orderFiles");
    EXPECT_GE(orders->count(), 2) << "the order used last is offered";
    EXPECT_EQ(orders->currentIndex(), -1) << "and not chosen";
    EXPECT_FALSE(find<QPushButton>("begin")->isEnabled());
    EXPECT_FALSE(find<QPushButton>("orderEdit")->isEnabled());
    EXPECT_THAT(text("orderSummary"), HasSubstr("choose its order"));
    turn_wheel(orders);
    EXPECT_EQ(orders->currentIndex(), -1);
    window_->bench().take_asset("RC-0117");
    EXPECT_THAT(text("orderSummary"), HasSubstr("WO-7"));
    EXPECT_TRUE(find<QPushButton>("begin")->isEnabled());
    window_->bench().start_page().begin_anew();
    EXPECT_FALSE(find<QPushButton>("begin")->isEnabled()) << "the next unit has an order of its own";
}

TEST_F(NothingMisleads, ASimulatedRunSaysSoOnEveryStep)
{
    EXPECT_FALSE(find<QLabel>("banner")->isVisible()) << "nothing has been chosen yet";
    ASSERT_NO_FATAL_FAILURE(begin());
    EXPECT_TRUE(find<QLabel>("banner")->isVisible());
    EXPECT_THAT(text("banner"), HasSubstr("SIMULATED"));
    say_the_three_words();
    ASSERT_TRUE(wait_for([&] { return place() == "Zero"; }, seconds(20)));
    EXPECT_TRUE(find<QLabel>("banner")->isVisible());
    press_key(Qt::Key_Escape);
    ASSERT_TRUE(wait_for([&] { return place() == "Hand back"; }, seconds(20)));
    EXPECT_TRUE(find<QLabel>("banner")->isVisible());
}

TEST_F(NothingMisleads, ARememberedPortThatIsNotThereStaysAsMissingAndBeginSaysWhyItWaits)
{
    auto& start = window_->bench().start_page();
    start.choose_order(QString::fromStdString(short_order()));
    EXPECT_EQ(start.port(), "") << "the virtual bench is only ever chosen by hand";
    EXPECT_THAT(text("portSays"), HasSubstr("waits for a port"));
    press("begin");
    EXPECT_TRUE(shows("startPage"));
    EXPECT_THAT(text("trouble"), HasSubstr("port"));
    QSettings().setValue(QStringLiteral("run/port"), QStringLiteral("/dev/ttyUSB99"));
    window_ = std::make_unique<MainWindow>();
    window_->show();
    auto* ports = find<QComboBox>("ports");
    EXPECT_THAT(ports->currentText().toStdString(), AllOf(HasSubstr("/dev/ttyUSB99"), HasSubstr("missing")));
    EXPECT_EQ(window_->bench().start_page().port(), "/dev/ttyUSB99");
    EXPECT_THAT(text("portSays"), AllOf(HasSubstr("/dev/ttyUSB99"), HasSubstr("not there")));
    QSettings().setValue(QStringLiteral("run/port"), QString::fromStdString(session::PortsModel::kVirtualBench));
    window_ = std::make_unique<MainWindow>();
    EXPECT_EQ(window_->bench().start_page().port(), "");
}

TEST_F(NothingMisleads, ARecordThatIsDroppedShowsItsUnitOrderDateAndSignerOnTop)
{
    drop(kRecords / "pass");
    ASSERT_TRUE(shows("resultPage")) << text("trouble");
    const auto order = window_->bench().result_page().result()->evidence.order.meaning;
    EXPECT_THAT(text("identity"),
                AllOf(HasSubstr(order.work_order), HasSubstr(order.unit.asset), HasSubstr("signed by")));
    EXPECT_THAT(text("headVerdict"), HasSubstr("pass"));
    EXPECT_EQ(text("headIsNot"), "KEY NOT KNOWN \u00B7 SIMULATED");
    auto* scroll = find<QScrollArea>("resultScroll");
    drop(kRecords / "imported.part");
    scroll->verticalScrollBar()->setValue(scroll->verticalScrollBar()->maximum());
    for (const auto* stays : {"identity", "headVerdict", "headIsNot"}) {
        EXPECT_FALSE(find<QLabel>(stays)->visibleRegion().isEmpty()) << stays << ": in sight down there too";
    }
    EXPECT_EQ(text("headIsNot"), "DRAFT \u00B7 IMPORTED");
    EXPECT_THAT(text("identity"), HasSubstr("not signed"));
    EXPECT_THAT(text("simulated"), HasSubstr("IMPORTED"));
    EXPECT_TRUE(find<QLabel>("simulated")->isVisible());
}

TEST_F(NothingMisleads, ARecordThatIsNotIntactIsShownUnderABannerThatSaysSo)
{
    const auto copy = std::filesystem::path(folder_.filePath("changed").toStdString());
    std::filesystem::copy(kRecords / "fail", copy, std::filesystem::copy_options::recursive);
    drop(copy);
    EXPECT_THAT(text("seal"), AllOf(HasSubstr("KEY NOT KNOWN"), Not(HasSubstr("NOT INTACT"))));
    auto record = records::read_file(copy / "record.json");
    const std::string was = "\"verdict\": \"fail\"", is = "\"verdict\": \"pass\"";
    for (auto at = record.find(was); at != std::string::npos; at = record.find(was, at))
        record.replace(at, was.size(), is);
    std::ofstream(copy / "record.json") << record;
    drop(copy);
    ASSERT_TRUE(shows("resultPage")) << text("trouble");
    EXPECT_TRUE(find<QLabel>("seal")->isVisible());
    EXPECT_THAT(text("seal"), AllOf(HasSubstr("NOT INTACT"), HasSubstr("record.json")));
    const auto file = folder_.filePath("refused.pdf");
    for (int what = 0; what < find<QComboBox>("what")->count(); ++what) {
        find<QComboBox>("what")->setCurrentIndex(what);
        EXPECT_FALSE(window_->bench().result_page().print_to(file)) << what << ": paper refuses it";
        EXPECT_THAT(text("told"), HasSubstr("record.json"));
        EXPECT_FALSE(std::filesystem::exists(file.toStdString()));
    }
    EXPECT_FALSE(find<QLabel>("homeLines")->isVisible());
    drop(kRecords / "imported.part");
    EXPECT_THAT(text("seal"), HasSubstr("DRAFT"));
    EXPECT_THAT(text("simulated"), HasSubstr("IMPORTED"));
    const auto loose = std::filesystem::path(folder_.filePath("loose.csv").toStdString());
    std::filesystem::copy_file(kRecords / "fail" / "trace.csv", loose);
    window_->bench().start_page().choose_order(QString::fromStdString((kRecords / "fail/order.json").string()));
    window_->bench().start_page().choose_instrument(
        QString::fromStdString((kRecords / "fail/instrument.json").string()));
    drop(loose);
    EXPECT_THAT(text("told"), HasSubstr("this is no record"));
    EXPECT_FALSE(find<QLabel>("seal")->isVisible()) << "what stood there was about another one";
}

/// The height of the longer rows stayed, an empty stretch of the page, once the uncertainties were put away.
TEST_F(NothingMisleads, TheNumbersAreNoHigherThanTheirRowsAlsoAfterTheUncertaintiesWereShown)
{
    drop(kRecords / "fail");
    window_->resize(1024, 700);
    auto* table = find<QTableView>("result");
    const auto as_high = [&] {
        return table->height() == table->horizontalHeader()->sizeHint().height() + table->verticalHeader()->length() +
                                      2 * table->frameWidth() + 2;
    };
    EXPECT_TRUE(wait_for(as_high, seconds(2)));
    const int before = table->height();
    for (int i = 0; i < 2; ++i)
        find<QPushButton>("details")->click();
    EXPECT_TRUE(wait_for([&] { return table->height() == before && as_high(); }, seconds(2))) << table->height();
    const auto columns = session::JudgementModel::detail_columns();
    find<QPushButton>("details")->click();
    EXPECT_EQ(table->model()->columnCount(), static_cast<int>(columns.size()) - 1) << "the source stands once, below";
}

/// A simulated run that says it was captured here, by a few bytes of any file that says so.
TEST_F(NothingMisleads, ASimulatedRecordThatWasMadeToSayCapturedHereIsBanneredAndRefusedByPaper)
{
    for (const char* name : {"record.json", "run.json"}) {
        const auto copy = std::filesystem::path(folder_.filePath(QLatin1String(name)).toStdString() + "-changed");
        std::filesystem::copy(kRecords / "pass", copy, std::filesystem::copy_options::recursive);
        auto bytes = records::read_file(copy / name);
        const std::string was = "\"simulated\"";
        const auto at = bytes.find(was);
        ASSERT_NE(at, std::string::npos) << name;
        bytes.replace(at, was.size(), "\"captured-here\"");
        std::ofstream(copy / name) << bytes;
        drop(copy);
        ASSERT_TRUE(shows("resultPage")) << text("trouble");
        EXPECT_TRUE(find<QLabel>("seal")->isVisible());
        EXPECT_THAT(text("seal"), AllOf(HasSubstr("NOT INTACT"), HasSubstr(name)));
        const auto file = folder_.filePath("refused.pdf");
        EXPECT_FALSE(window_->bench().result_page().print_to(file)) << name;
        EXPECT_THAT(text("told"), HasSubstr(name));
        EXPECT_FALSE(std::filesystem::exists(file.toStdString()));
    }
}

/// A pipe among the files used last held the window up before it could be seen.
TEST_F(NothingMisleads, APipeAmongTheRecentFilesHoldsNothingUpAndIsNamed)
{
    const auto pipe = folder_.filePath("pipe.json");
    ASSERT_EQ(::mkfifo(pipe.toUtf8().constData(), 0600), 0);
    session::RecentFiles(QStringLiteral("orders")).used(pipe);
    window_ = std::make_unique<MainWindow>();
    window_->show();
    window_->bench().start_page().choose_order(pipe);
    EXPECT_THAT(text("orderSummary"), HasSubstr("is a pipe"));
}

/// A whole run without them ended in 'Not sealed'.
TEST_F(NothingMisleads, WhatSealingNeedsIsAskedForBeforeARunOnARealLineBegins)
{
    int leader = -1, follower = -1;
    char port[64] = {};
    ASSERT_EQ(::openpty(&leader, &follower, port, nullptr, nullptr), 0);
    window_->bench().start_page().choose_order(QString::fromStdString(short_order()));
    window_->bench().start_page().choose_port(port);
    for (const auto& [field, words] :
         {std::pair("place", "place of the run"), std::pair("organisation", "organisation"),
          std::pair("operator", "name of who runs it")}) {
        const auto before = find<QLineEdit>(field)->text();
        find<QLineEdit>(field)->setText("  ");
        press("begin");
        EXPECT_TRUE(shows("startPage")) << field;
        EXPECT_THAT(text("trouble"), AllOf(HasSubstr(words), HasSubstr("before the run"))) << field;
        find<QLineEdit>(field)->setText(before);
    }
    EXPECT_FALSE(std::filesystem::exists(records())) << "nothing was begun";
    ::close(leader);
    ::close(follower);
}

TEST_F(NothingMisleads, AnOrderOrATraceThatIsDroppedIsToldByWhatItHolds)
{
    drop(short_order());
    EXPECT_EQ(window_->bench().start_page().order().meaning.work_order, "WO-7");
    const auto loose = std::filesystem::path(folder_.filePath("loose.csv").toStdString());
    std::filesystem::copy_file(kRecords / "pass" / "trace.csv", loose);
    drop(loose);
    EXPECT_THAT(text("trouble"), HasSubstr("trace alone")) << "the instrument is the built-in one";
    window_->bench().start_page().choose_instrument(
        QString::fromStdString((kRecords / "pass/instrument.json").string()));
    drop(loose);
    ASSERT_TRUE(shows("resultPage")) << text("trouble");
    EXPECT_THAT(text("simulated"), HasSubstr("IMPORTED"));
    EXPECT_FALSE(find<QPushButton>("save")->isEnabled());
    EXPECT_FALSE(find<QPushButton>("print")->isEnabled());
    const auto rubbish = folder_.filePath("rubbish.json").toStdString();
    std::ofstream(rubbish) << "{";
    drop(rubbish);
    EXPECT_THAT(text("trouble"), HasSubstr("Neither a record"));
}

TEST_F(NothingMisleads, TheNumbersAreCopiedAsTextAndAsCsv)
{
    drop(kRecords / "pass");
    auto* table = find<NumbersTable>("result");
    table->setFocus();
    QTest::keyClick(table, Qt::Key_C, Qt::ControlModifier);
    const auto* copied = QGuiApplication::clipboard()->mimeData();
    ASSERT_NE(copied, nullptr);
    EXPECT_THAT(copied->text().toStdString(), AllOf(HasSubstr("\t"), HasSubstr("insufflation")));
    EXPECT_THAT(copied->data("text/csv").toStdString(), AllOf(HasSubstr(","), HasSubstr("\r\n")));
    const auto lines = copied->text().count(u'\n');
    EXPECT_EQ(lines, table->model()->rowCount() + 1);
}

TEST_F(NothingMisleads, PrintOpensTheDialogOfTheSystem)
{
    drop(kRecords / "pass");
    QString opened;
    QTimer::singleShot(0, window_.get(), [&] {
        wait_for([] { return QApplication::activeModalWidget() != nullptr; }, seconds(10));
        if (auto* dialog = qobject_cast<QPrintDialog*>(QApplication::activeModalWidget())) {
            opened = dialog->metaObject()->className();
            dialog->reject();
        }
    });
    press("print");
    EXPECT_EQ(opened.toStdString(), "QPrintDialog");
    EXPECT_THAT(text("told"), Not(HasSubstr("Sent to"))) << "nobody said yes";
}

TEST_F(NothingMisleads, TheFiveLinesForHomeStandOnTheScreenToBeCopiedByHand)
{
    drop(kRecords / "pass");
    EXPECT_TRUE(find<QLabel>("homeLines")->isVisibleTo(window_.get()));
    EXPECT_THAT(text("homeLines"), AllOf(HasSubstr("As prescribed"), HasSubstr("call")));
    EXPECT_EQ(find<QLabel>("homeLines")->text().count(u'\n'), 4);
    drop(kRecords / "imported.part");
    EXPECT_FALSE(find<QLabel>("homeLines")->isVisibleTo(window_.get())) << "nobody has signed it";
}

TEST_F(NothingMisleads, AChartIsSavedAsAPicture)
{
    drop(kRecords / "fail");
    for (const char* name : {"wholeTrace", "closeUpExsufflation"}) {
        const auto file = folder_.filePath(QString::fromLatin1(name) + ".png");
        ASSERT_TRUE(find<charts::PlotView>(name)->save_png(file));
        const QImage picture(file);
        EXPECT_GT(picture.width(), 100) << name;
        EXPECT_NE(picture.pixelColor(picture.rect().center()), QColor()) << name;
    }
}

TEST_F(NothingMisleads, EachPlateauStandsAboutItsLimitsAndEachWorstValueInItsStrip)
{
    drop(kRecords / "fail");
    const auto& judgements = window_->bench().result_page().result()->assessed.assessment.judgements;
    const auto strips = find<charts::PictureView>("limitStrips")->shown();
    EXPECT_GE(strips.up.rows.size(), 3);
    EXPECT_LE(strips.up.rows.size(), static_cast<qsizetype>(judgements.size()));
    const auto bars = std::count_if(strips.curves.begin(), strips.curves.end(), [](const charts::Curve& curve) {
        return !curve.dots && curve.points.size() == 2 && curve.points[0].y() == curve.points[1].y();
    });
    EXPECT_GE(bars, 3) << "U as a bar";
    const bool some_bad = std::any_of(strips.curves.begin(), strips.curves.end(),
                                      [](const charts::Curve& curve) { return curve.pen == charts::Pen::bad; });
    EXPECT_TRUE(some_bad);
    for (const char* name : {"closeUpInsufflation", "closeUpExsufflation"}) {
        const auto picture = find<charts::PictureView>(name)->shown();
        EXPECT_LT(picture.up.high - picture.up.low, 40.0) << name << " is no close-up";
        EXPECT_FALSE(picture.areas.isEmpty());
    }
    const auto zero = find<charts::PictureView>("closeUpZero")->shown();
    EXPECT_EQ(zero.up.high, 1.0);
    EXPECT_EQ(zero.curves.size(), 2) << "before and after";
    EXPECT_FALSE(find<charts::TraceChart>("wholeTrace")->shown().areas.isEmpty()) << "each phase has its band";
    window_->resize(1200, 800);
    const auto* viewport = find<QScrollArea>("resultScroll")->viewport();
    const auto* plateaus = find<QWidget>("plateausSplitter");
    const auto lower_edge = [&] { return plateaus->mapTo(viewport, plateaus->rect().bottomLeft()).y(); };
    EXPECT_TRUE(wait_for([&] { return lower_edge() <= viewport->height(); }, seconds(2)))
        << "a shortfall is seen without scrolling: " << lower_edge() << " of " << viewport->height();
}

TEST(StopPage, ShowsTheOneThingToDoInAnyWindowHoweverLongTheWords)
{
    application();
    for (const QSize size : {QSize(1024, 700), QSize(640, 420), QSize(420, 360)}) {
        StopPage page;
        const auto words = QStringLiteral("Take the hose off the person now and see to them. ").repeated(12);
        page.show_sentence("Stop. Keep this unit out of use.", words, words, "Understood  [Space]");
        page.resize(size);
        page.show();
        QCoreApplication::processEvents();
        auto* understood = page.findChild<QPushButton*>("understood");
        EXPECT_EQ(page.size(), size) << "the words make the window grow";
        const QRect at(understood->mapTo(&page, QPoint(0, 0)), understood->size());
        EXPECT_TRUE(page.rect().contains(at)) << size.width();
        EXPECT_TRUE(understood->isVisible());
    }
}

TEST(WiringOf, ShowsForEachDeedWhatToTouch)
{
    application();
    session::RunView view;
    view.step = session::StepKind::zero_before;
    view.deed = session::Deed::open_line;
    EXPECT_FALSE(wiring_of(view).plugged);
    EXPECT_TRUE(wiring_of(view).touch.contains(WiringPart::sensing_line));
    EXPECT_FALSE(wiring_of(view).touch.contains(WiringPart::unit));
    view.place = "Zero again";
    EXPECT_TRUE(wiring_of(view).touch.contains(WiringPart::unit)) << "it is switched off before the plug is taken out";
    EXPECT_TRUE(wiring_of(view).touch.contains(WiringPart::plug));
    view.step = session::StepKind::confirm;
    view.deed = session::Deed::hose_off;
    EXPECT_EQ(wiring_of(view).touch, std::set{WiringPart::hose});
    view.step = session::StepKind::manual;
    view.deed = session::Deed::exsufflate;
    EXPECT_TRUE(wiring_of(view).plugged);
    EXPECT_EQ(wiring_of(view).toggle, -1);
    EXPECT_TRUE(wiring_of(view).touch.contains(WiringPart::toggle));
    view.line_lost = true;
    EXPECT_TRUE(wiring_of(view).touch.contains(WiringPart::transducer));
    WiringView drawing;
    drawing.show_wiring(wiring_of(view));
    EXPECT_THAT(drawing.accessibleDescription().toStdString(), HasSubstr("transducer"));
    EXPECT_FALSE(drawing.grab().isNull());
}

TEST(WiringView, KeepsItsWordsAsLargeAsThoseAroundItAndWithinItHoweverLowItIs)
{
    application();
    session::RunView view;
    view.step = session::StepKind::manual;
    WiringView drawing;
    drawing.show_wiring(wiring_of(view));
    drawing.resize(400, 84);
    drawing.show();
    QCoreApplication::processEvents();
    int words = 0;
    for (auto* item : drawing.scene()->items()) {
        if (const auto* text = dynamic_cast<QGraphicsSimpleTextItem*>(item)) {
            ++words;
            EXPECT_GE(text->font().pixelSize(), 9) << text->text().toStdString();
            const auto at = text->deviceTransform(drawing.viewportTransform()).mapRect(text->boundingRect());
            EXPECT_TRUE(drawing.viewport()->rect().adjusted(-1, -1, 1, 1).contains(at.toAlignedRect()))
                << text->text().toStdString();
        }
    }
    EXPECT_EQ(words, 7) << "unit, hose, tee, plug, sensing line, transducer, computer";
}

} // namespace
} // namespace zeroline::window
