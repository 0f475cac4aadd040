// How many keys and seconds lie between a scanned unit and its sealed record with the printed page, for the first unit
// and the next of a stack (docs/performance.md). The unit's own time is the bench's.

#include "tests/gui/window/driven_window.hpp"

#include "gui/session/run_files.hpp"

#include <iostream>

namespace zeroline::window {
namespace {

using std::chrono::seconds;

/// Besides what is typed: figures, checklist, name and role, passphrase.
constexpr int kMostKeys = 8;

class KeysAndSeconds : public DrivenWindow {
protected:
    void key(Qt::Key key, Qt::KeyboardModifiers with = {})
    {
        ++keys_;
        auto* target = QApplication::focusWidget();
        QTest::keyClick(target != nullptr ? target : window_.get(), key, with);
        wait(std::chrono::milliseconds(60));
    }
    void order_for(const std::string& asset)
    {
        auto order = records::load_work_order(short_order()).meaning;
        order.unit.asset = asset;
        order.work_order = "WO-" + asset;
        const auto file = folder_.filePath(QString::fromStdString(asset + ".json"));
        std::ofstream(file.toStdString()) << session::text_of(order);
        session::RecentFiles(QStringLiteral("orders")).used(file);
    }
    void from_scan_to_run(const QString& asset)
    {
        scan(asset);
        ASSERT_TRUE(find<QPushButton>("begin")->isEnabled()) << text("trouble");
        key(Qt::Key_Return, Qt::ControlModifier);
        ASSERT_TRUE(wait_for([&] { return shows("runPage"); }, seconds(2))) << text("trouble");
    }
    void through_the_run()
    {
        for (int word = 0; word < 3; ++word) {
            const auto before = session().view().number;
            key(Qt::Key_Space);
            ASSERT_TRUE(wait_for([&] { return session().view().number > before; }, seconds(2)));
        }
        ASSERT_TRUE(wait_for([&] { return place() == "Zero again"; }, seconds(120))) << text("sentence");
        key(Qt::Key_Space);
        ASSERT_TRUE(wait_for([&] { return place() == "Hand back"; }, seconds(60)));
        for (int i = 0; i < kMostKeys && !shows("resultPage"); ++i) {
            key(Qt::Key_Space);
            wait_for([&] { return shows("resultPage"); }, seconds(1));
        }
        ASSERT_TRUE(shows("resultPage"));
    }
    /// Begins at the start page, ends there.
    void one_unit(const char* which, const QString& asset)
    {
        keys_ = 0;
        const auto began = std::chrono::steady_clock::now();
        ASSERT_NO_FATAL_FAILURE(from_scan_to_run(asset));
        ASSERT_NO_FATAL_FAILURE(through_the_run());
        const auto& page = window_->bench().result_page();
        const auto part = page.shown_folder();
        const auto& trace = page.result()->evidence.trace;
        const double run_s = trace.time_s.back() - trace.time_s.front();
        if (auto* role = find<QLineEdit>("role"); role->text().isEmpty())
            role->setText("technician");
        key(Qt::Key_Return, Qt::ControlModifier);
        ASSERT_TRUE(wait_for([&] { return shows("startPage"); }, seconds(3))) << text("told");
        const std::chrono::duration<double> all = std::chrono::steady_clock::now() - began;
        for (const char* name : {"record.pdf", "seal.json"})
            EXPECT_TRUE(std::filesystem::exists(part.parent_path() / part.stem() / name)) << name;
        std::cout << which << ": " << keys_ << " keys, " << all.count() << " s, of which the run " << run_s << " s\n";
        EXPECT_LE(keys_, kMostKeys) << which;
        // From the scan to the empty page for the next unit; from Begin to the seal it is 5 s (bench_place_test.cpp).
        EXPECT_LT(all.count() - run_s, 10.0) << which;
    }

    int keys_ = 0;
};

TEST_F(KeysAndSeconds, AreFewForOneUnitAndForTheSecondOfAStack)
{
    order_for("RC-0117");
    order_for("RC-0118");
    window_->bench().start_page().look_again();
    window_->bench().start_page().choose_port(session::PortsModel::kVirtualBench);
    ASSERT_NO_FATAL_FAILURE(one_unit("first unit", "RC-0117"));
    ASSERT_NO_FATAL_FAILURE(one_unit("second of a stack", "RC-0118"));
}

} // namespace
} // namespace zeroline::window
