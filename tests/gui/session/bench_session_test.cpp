// A session with everything around it, on the virtual bench in this program: the capture's thread, the bench's thread
// and the one that looks at both. Run under the thread sanitizer and the address sanitizer too.

#include "tests/gui/session/played_run.hpp"

#include "gui/session/bench_session.hpp"
#include "gui/session/run_files.hpp"

#include <QCoreApplication>
#include <QTemporaryDir>

#include <gmock/gmock.h>

#include <chrono>
#include <filesystem>
#include <functional>
#include <sys/mount.h>
#include <thread>

namespace zeroline::session {
namespace {

constexpr const char* kOrder =
    R"({"schema": "zeroline/work-order/1", "work_order": "WO-7", "occasion": "home-visit", "customer": "none: a test",
        "unit": {"asset": "RC-0117", "serial": "K1", "model": "paper unit"},
        "prescription": {"reference": "RX-1", "presets": [{"name": "day",
          "insufflation": {"pressure": 40, "duration": 1}, "exsufflation": {"pressure": -40, "duration": 1},
          "pause": {"duration": 1}}]},
        "tolerances": {"basis": "invented manual", "pressure": {"absolute": 3}, "duration": {"absolute": 0.1}},
        "decision_rule": "simple", "cycles": 3, "lead_cycles": 1})";

QCoreApplication& application()
{
    static int argc = 1;
    static char name[] = "bench-session-test";
    static char* argv[] = {name, nullptr};
    static auto* const the_one = new QCoreApplication(argc, argv);
    return *the_one;
}

class BenchSessionTest : public testing::Test {
protected:
    BenchSessionTest() { application(); }

    [[nodiscard]] RunSetUp set_up(const std::string& name) const
    {
        RunSetUp made;
        made.order = order_from_text(kOrder);
        made.instrument = instrument_from_text(text_of(bench_transducer()));
        made.simulated =
            std::make_shared<SimulatedBench>(made.order.meaning, made.instrument.meaning, std::vector<std::string>{});
        made.port = made.simulated->port();
        made.folder = folder_.filePath(QString::fromStdString(name)).toStdString();
        made.run_operator = "operator 3";
        return made;
    }

    /// Ticks as the timer does until something holds, or the time is up.
    static bool tick_until(BenchSession& session, const std::function<bool()>& holds, std::chrono::seconds at_most)
    {
        const auto end = std::chrono::steady_clock::now() + at_most;
        while (!holds() && std::chrono::steady_clock::now() < end) {
            session.tick();
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
        }
        return holds();
    }

    QTemporaryDir folder_;
};

TEST_F(BenchSessionTest, a_hundred_starts_and_stops_leave_nothing_behind)
{
    for (int i = 0; i < 100; ++i) {
        BenchSession session(set_up("run-" + std::to_string(i)));
        session.start();
        session.tick();
        if (i % 2 == 0) {
            session.break_off();
        }
    }
    EXPECT_THAT(folder_.path().toStdString(), testing::Not(testing::IsEmpty()));
    for (const auto& one : std::filesystem::directory_iterator(folder_.path().toStdString())) {
        EXPECT_TRUE(std::filesystem::exists(one.path() / "trace.csv"))
            << one.path() << ": kept only with readings in it";
    }
}

TEST_F(BenchSessionTest, what_was_captured_is_seen_written_and_judged_while_it_grows)
{
    BenchSession session(set_up("run"));
    int assessed = 0;
    QObject::connect(&session, &BenchSession::assessed, [&] { ++assessed; });
    session.start();
    for (int word = 0; word < 3; ++word) {
        session.confirm();
    }
    ASSERT_TRUE(tick_until(
        session, [&] { return session.view().step == StepKind::manual; }, std::chrono::seconds(40)));
    session.note_checklist({{"hose", verification::ChecklistItem::Outcome::ok, {}}}, {21.0, {}, {}});
    session.skip("seen enough");
    EXPECT_GE(assessed, 1);
    EXPECT_GT(session.history().size(), 1000U);
    session.give_back();
    session.hand_back(true, session.displayed(), std::nullopt);
    const auto result = session.conclude();
    ASSERT_TRUE(result.evidence.run);
    EXPECT_EQ(result.evidence.run->meaning.skipped.front().reason, "seen enough");
    EXPECT_EQ(result.evidence.run->meaning.checklist.front().item, "hose");
    EXPECT_EQ(result.evidence.run->meaning.environment->temperature_C, 21.0);
    EXPECT_EQ(result.ending, Ending::given_back);
}

/// A small disk of its own, gone with the test.
class SmallDisk {
public:
    explicit SmallDisk(const QString& place) : place_(place.toStdString())
    {
        std::filesystem::create_directory(place_);
        mounted_ = ::mount("tmpfs", place_.c_str(), "tmpfs", 0, "size=64k") == 0;
    }
    ~SmallDisk()
    {
        if (mounted_) {
            ::umount2(place_.c_str(), MNT_DETACH);
        }
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;
    [[nodiscard]] bool mounted() const { return mounted_; }

private:
    std::string place_;
    bool mounted_;
};

TEST_F(BenchSessionTest, a_full_disk_ends_the_run_by_way_of_the_hand_back_list)
{
    const SmallDisk disk(folder_.filePath(QStringLiteral("disk")));
    if (!disk.mounted()) {
        GTEST_SKIP() << "only the super-user may mount a small disk";
    }
    BenchSession session(set_up("disk/run"));
    session.start();
    ASSERT_TRUE(tick_until(
        session, [&] { return session.view().step == StepKind::hand_back; }, std::chrono::seconds(90)));
    EXPECT_THAT(session.line().trouble, testing::HasSubstr("the disk is full"));
    session.hand_back(true, session.displayed(), std::nullopt);
    EXPECT_EQ(session.conclude().ending, Ending::not_saved);
}

} // namespace
} // namespace zeroline::session
