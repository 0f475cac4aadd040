// The plain window over a real pseudo-terminal, driven through its widgets.

#include "gui/window/live_window.hpp"

#include "fixtures/virtual_bench/virtual_bench.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/window/live_chart.hpp"

#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSettings>
#include <QTemporaryDir>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <functional>
#include <memory>
#include <set>
#include <string>

namespace zeroline::window {
namespace {

using testing::HasSubstr;

const std::string kDemonstration = ZEROLINE_SOURCE_DIR "/fixtures/demonstration/";

/// Lets events run until `true_now` or the time is over.
bool wait_for(const std::function<bool()>& true_now, std::chrono::seconds at_most)
{
    const auto end = std::chrono::steady_clock::now() + at_most;
    while (!true_now() && std::chrono::steady_clock::now() < end)
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents | QEventLoop::AllEvents, 50);
    return true_now();
}

class LiveWindowTest : public testing::Test {
protected:
    static void SetUpTestSuite()
    {
        static int argc = 1;
        static char name[] = "live_window_test";
        static char* argv[] = {name, nullptr};
        // Whatever screen the machine has, or none.
        qputenv("QT_QPA_PLATFORM", "offscreen");
        application_ = new QApplication(argc, argv);
        QCoreApplication::setOrganizationName(QStringLiteral("zeroline-tests"));
    }
    static void TearDownTestSuite() { delete application_; }

    void SetUp() override
    {
        QSettings::setDefaultFormat(QSettings::IniFormat);
        QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, settings_.path());
        window_ = std::make_unique<LiveWindow>();
        window_->show();
    }

    template <typename Widget> Widget* find(const char* name) const
    {
        auto* found = window_->findChild<Widget*>(QLatin1String(name));
        EXPECT_NE(found, nullptr) << name;
        return found;
    }
    std::string text(const char* label) const { return find<QLabel>(label)->text().toStdString(); }

    void choose(const std::string& port, const std::string& instrument) const
    {
        find<QComboBox>("ports")->setEditText(QString::fromStdString(port));
        find<QLineEdit>("instrument")->setText(QString::fromStdString(instrument));
    }
    void press(const char* name) const { find<QPushButton>(name)->click(); }

    /// For people who want to look at it: ZEROLINE_SCREENSHOT names the file.
    void keep_picture() const
    {
        if (const auto file = qEnvironmentVariable("ZEROLINE_SCREENSHOT"); !file.isEmpty()) {
            find<QLineEdit>("instrument")->setText("demonstration/instrument.json");
            wait_for([] { return false; }, std::chrono::seconds(24));
            ASSERT_TRUE(window_->grab().save(file)) << file.toStdString();
        }
    }

    static virtual_bench::BenchSettings healthy_bench()
    {
        virtual_bench::BenchSettings settings;
        settings.order = records::load_work_order(kDemonstration + "order.json").meaning;
        settings.instrument = records::load_instrument(kDemonstration + "instrument.json").meaning;
        // At once into a pressure that cannot be mistaken for the open port.
        settings.script = {{virtual_bench::Action::Kind::plug, 0.2, {}, 0},
                           {virtual_bench::Action::Kind::hold_insufflation, 6.0, {}, 0},
                           {virtual_bench::Action::Kind::release, 1.0, {}, 0},
                           {virtual_bench::Action::Kind::automatic, 40.0, "day", 0}};
        return settings;
    }

    static inline QApplication* application_ = nullptr;
    QTemporaryDir settings_;
    std::unique_ptr<LiveWindow> window_;
};

TEST_F(LiveWindowTest, ShowsTheTraceOfAVirtualBenchAndEndsCleanly)
{
    virtual_bench::VirtualBench bench(healthy_bench());
    choose(bench.port(), kDemonstration + "instrument.json");
    press("start");
    ASSERT_TRUE(window_->is_running()) << text("sentence");

    auto* chart = find<LiveChart>("chart");
    EXPECT_TRUE(wait_for([&] { return chart->points() > 200; }, std::chrono::seconds(20))) << text("sentence");
    EXPECT_THAT(text("now"), testing::MatchesRegex(" *\\+(3|4)[0-9][.,][0-9] cmH2O"));
    EXPECT_THAT(text("line"), HasSubstr("SIMULATED"));
    EXPECT_THAT(text("line"), HasSubstr("running"));
    keep_picture();

    press("stop");
    EXPECT_FALSE(window_->is_running());
    EXPECT_TRUE(window_->close());
}

TEST_F(LiveWindowTest, ClosingWhileDataFlowsEndsTheCapture)
{
    virtual_bench::VirtualBench bench(healthy_bench());
    choose(bench.port(), kDemonstration + "instrument.json");
    press("start");
    ASSERT_TRUE(wait_for([&] { return find<LiveChart>("chart")->points() > 10; }, std::chrono::seconds(20)));
    EXPECT_TRUE(window_->close());
    EXPECT_FALSE(window_->is_running());
}

TEST_F(LiveWindowTest, SaysInWordsWhatIsWrongWithAnInstrumentFileThatIsNotThere)
{
    choose("/dev/null", "no such file.json");
    press("start");
    EXPECT_FALSE(window_->is_running());
    EXPECT_THAT(text("sentence"), HasSubstr("no such file.json"));
}

TEST_F(LiveWindowTest, SaysInWordsThatAPortIsNotThere)
{
    choose("/dev/no-such-port", kDemonstration + "instrument.json");
    press("start");
    EXPECT_FALSE(window_->is_running());
    EXPECT_THAT(text("sentence"), HasSubstr("/dev/no-such-port"));
}

TEST_F(LiveWindowTest, OffersAgainWhatWasChosenLast)
{
    virtual_bench::VirtualBench bench(healthy_bench());
    choose(bench.port(), kDemonstration + "instrument.json");
    press("start");
    ASSERT_TRUE(window_->is_running()) << text("sentence");
    window_->close();
    window_ = std::make_unique<LiveWindow>();
    EXPECT_EQ(find<QLineEdit>("instrument")->text().toStdString(), kDemonstration + "instrument.json");
    EXPECT_EQ(find<QComboBox>("ports")->currentText().toStdString(), bench.port());
}

TEST_F(LiveWindowTest, EverythingIsReachedByTheTabKeyAndNamedForAccessibility)
{
    std::set<QWidget*> reached;
    QWidget* at = window_.get();
    do {
        at = at->nextInFocusChain();
        if ((at->focusPolicy() & Qt::TabFocus) != 0)
            reached.insert(at);
    } while (at != window_.get());
    for (const char* name : {"ports", "refresh", "instrument", "browse", "start", "stop"}) {
        auto* widget = find<QWidget>(name);
        EXPECT_EQ(reached.count(widget), 1U) << name;
        EXPECT_FALSE(widget->accessibleName().isEmpty()) << name;
        EXPECT_GE(widget->height(), 40) << name << " is too small for a glove";
    }
}

TEST(LiveChartEdges, GrowWithThePressureAndKeepZeroInTheMiddle)
{
    int argc = 1;
    char name[] = "chart";
    char* argv[] = {name, nullptr};
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QApplication application(argc, argv);
    LiveChart chart;
    chart.resize(800, 400);
    chart.show();
    const std::vector<session::LiveSample> samples = {{0.0, 0.0}, {1.0, 63.0}, {2.0, -12.0}};
    chart.show_samples(samples, 20.0);
    EXPECT_EQ(chart.upper_edge_cmH2O(), 70.0);
    EXPECT_EQ(chart.lower_edge_cmH2O(), -70.0);
    EXPECT_EQ(chart.points(), 3);
    chart.reset_edges();
    EXPECT_EQ(chart.upper_edge_cmH2O(), 50.0);
}

} // namespace
} // namespace zeroline::window
