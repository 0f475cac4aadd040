#pragma once

#include "tests/gui/window/own_screen.hpp"
#include "tests/gui/window/own_settings.hpp"

#include "gui/session/bench_session.hpp"
#include "gui/window/bench_place.hpp"
#include "gui/window/file_choice.hpp"
#include "gui/window/main_window.hpp"
#include "gui/window/result_page.hpp"
#include "gui/window/start_page.hpp"

#include <QAbstractSpinBox>
#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QtTest/QTest>
#include <QWheelEvent>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <memory>
#include <string>

namespace zeroline::window {

/// One application a program: on an X server of its own where its build names one, else on the screen of the
/// environment, or none.
inline QApplication& application()
{
    static int argc = 1;
    static char name[] = "zeroline-window-test";
    static char* argv[] = {name, nullptr};
    static const bool screen = [] {
#ifdef ZEROLINE_XVFB
        if (start_own_screen(ZEROLINE_XVFB))
            return true;
#endif
        if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM"))
            qputenv("QT_QPA_PLATFORM", "offscreen");
        return true;
    }();
    static_cast<void>(screen);
    // Never destroyed: what other statics it still needs would be gone before it.
    static auto* const the_one = new QApplication(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("zeroline-tests"));
    return *the_one;
}

inline void turn_wheel(QWidget* over)
{
    const QPointF middle(over->rect().center());
    QWheelEvent event(middle, over->mapToGlobal(middle), {}, {0, -240}, Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase,
                      false);
    QCoreApplication::sendEvent(over, &event);
}

/// The window with settings and records of its own, driven through its widgets.
class DrivenWindow : public testing::Test {
protected:
    void SetUp() override
    {
        application();
        window_ = std::make_unique<MainWindow>(options_);
        window_->show();
        window_->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window_.get()));
        find<QLineEdit>("records")->setText(records().c_str());
        find<QLineEdit>("operator")->setText("operator 3");
        find<QLineEdit>("place")->setText("workshop");
        find<QLineEdit>("organisation")->setText("Invented Workshop");
        find<QLineEdit>("address")->setText("1 Example Street");
    }

    [[nodiscard]] std::string records() const { return folder_.filePath(QStringLiteral("records")).toStdString(); }

    template <typename Widget> Widget* find(const char* name) const
    {
        auto* found = window_->findChild<Widget*>(QLatin1String(name));
        EXPECT_NE(found, nullptr) << name;
        return found;
    }
    [[nodiscard]] std::string text(const char* label) const { return find<QLabel>(label)->text().toStdString(); }
    /// Every choice and every number of the form that is shown, by name.
    [[nodiscard]] std::map<QWidget*, QString> values() const
    {
        std::map<QWidget*, QString> all;
        for (auto* box : window_->findChildren<QComboBox*>())
            all[box] = box->currentText();
        for (auto* box : window_->findChildren<QAbstractSpinBox*>())
            all[box] = box->text();
        return all;
    }
    void expect_no_wheel_changes_anything() const
    {
        const auto before = values();
        EXPECT_GT(before.size(), 5U);
        for (const auto& [box, value] : before) {
            turn_wheel(box);
            box->setFocus();
            turn_wheel(box);
            for (auto* inside : box->findChildren<QLineEdit*>())
                turn_wheel(inside);
        }
        for (const auto& [box, value] : values())
            EXPECT_EQ(value, before.at(box)) << box->objectName().toStdString();
    }
    void press(const char* name) const
    {
        auto* pressed = find<QPushButton>(name);
        ASSERT_TRUE(pressed->isEnabled()) << name;
        QTest::mouseClick(pressed, Qt::LeftButton);
    }
    /// As a person: where the focus is.
    void press_key(Qt::Key key) const
    {
        auto* target = QApplication::focusWidget();
        QTest::keyClick(target != nullptr ? target : window_.get(), key);
        wait(std::chrono::milliseconds(60)); // longer than a scanner leaves between keys
    }
    void sign_and_save()
    {
        find<QLineEdit>("signer")->setText("operator 3");
        find<QLineEdit>("role")->setText("technician");
        press("save");
        ASSERT_TRUE(window_->bench().result_page().saved()) << text("told");
    }
    /// As a scanner types: no time between the keys, and Enter.
    void scan(const QString& code) const
    {
        auto* target = QApplication::focusWidget();
        QTest::keyClicks(target != nullptr ? target : window_.get(), code);
        QTest::keyClick(target != nullptr ? target : window_.get(), Qt::Key_Return);
        wait(std::chrono::milliseconds(80));
    }
    static void wait(std::chrono::milliseconds time) { QTest::qWait(static_cast<int>(time.count())); }

    static bool wait_for(const std::function<bool()>& true_now, std::chrono::seconds at_most)
    {
        const auto end = std::chrono::steady_clock::now() + at_most;
        while (!true_now() && std::chrono::steady_clock::now() < end)
            QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents | QEventLoop::AllEvents, 30);
        return true_now();
    }

    [[nodiscard]] session::BenchSession& session() const { return *window_->bench().session(); }
    [[nodiscard]] bool shows(const char* page) const
    {
        auto* found = window_->findChild<QWidget*>(QLatin1String(page));
        return found != nullptr && found->isVisible();
    }
    [[nodiscard]] std::string place() const { return session().view().place; }

    /// An order with few cycles and short phases, so that a test does not take minutes.
    std::string short_order(int cycles = 3) const
    {
        const auto file = folder_.filePath(QStringLiteral("short-order.json")).toStdString();
        std::ofstream(file)
            << R"({"schema": "zeroline/work-order/1", "work_order": "WO-7", "occasion": "home-visit", "customer": "none: a test",
            "unit": {"asset": "RC-0117", "serial": "K1", "model": "demonstration unit"},
            "prescription": {"reference": "RX-1", "presets": [{"name": "day",
              "insufflation": {"pressure": 40, "duration": 1}, "exsufflation": {"pressure": -40, "duration": 1},
              "pause": {"duration": 1}, "trigger": "off"}]},
            "tolerances": {"basis": "invented manual", "pressure": {"absolute": 3}, "duration": {"absolute": 0.1},
              "residual": {"absolute": 1.5}, "zero": {"absolute": 1.5}, "display": {"absolute": 3}},
            "decision_rule": "simple", "cycles": )"
            << cycles << R"(, "lead_cycles": 1, "contact": "service desk"})";
        return file;
    }

    void choose_the_demonstration() const { window_->bench().start_page().choose_order(FileChoice::kDemonstration); }

    /// A run of the short order, on the virtual bench.
    void begin(const QString& fault = {}) const
    {
        ASSERT_TRUE(shows("startPage"));
        window_->bench().start_page().choose_order(QString::fromStdString(short_order()));
        window_->bench().start_page().choose_port(session::PortsModel::kVirtualBench);
        if (!fault.isEmpty())
            choose_fault(fault);
        press("begin");
        ASSERT_TRUE(shows("runPage")) << text("trouble");
    }

    void choose_fault(const QString& code) const
    {
        auto* faults = find<QComboBox>("fault");
        const int at = faults->findData(code);
        ASSERT_GE(at, 0) << code.toStdString();
        faults->setCurrentIndex(at);
    }

    /// Space until the hand-back list was seen to its end, and once more. False where no result comes.
    bool hand_back_by_space() const
    {
        for (int i = 0; i < 10 && !shows("resultPage"); ++i) {
            press_key(Qt::Key_Space);
            wait_for([&] { return shows("resultPage"); }, std::chrono::seconds(2));
        }
        return wait_for([&] { return shows("resultPage"); }, std::chrono::seconds(30));
    }

    /// The three words that a run begins with.
    void say_the_three_words() const
    {
        for (int i = 0; i < 3; ++i)
            press_key(Qt::Key_Space);
    }

    OwnSettings settings_;
    const QTemporaryDir& folder_ = settings_.folder();
    WindowOptions options_; ///< of the window, read as it is made
    std::unique_ptr<MainWindow> window_;
};

} // namespace zeroline::window
