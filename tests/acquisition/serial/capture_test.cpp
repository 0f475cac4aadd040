#include "acquisition/serial/capture.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "tests/acquisition/serial/captured.hpp"
#include "tests/acquisition/serial/in_child.hpp"
#include "tests/acquisition/serial/pty_pair.hpp"
#include "tests/temporary_folder.hpp"

#include <fcntl.h>
#include <gmock/gmock.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <csignal>
#include <filesystem>
#include <list>
#include <thread>

namespace zeroline::serial::test {
namespace {

using testing::HasSubstr;
using trace::NoteKind;

CaptureSettings settings_for(const std::string& port)
{
    CaptureSettings settings;
    settings.port = port;
    settings.instrument = plain_instrument();
    settings.silence_s = 0.2; // tests need not wait for long
    return settings;
}

TEST(Capture, hands_over_what_the_instrument_sends_and_leaves_it_in_the_file)
{
    const TemporaryFolder folder;
    const InstrumentEnd instrument;
    CaptureSettings settings = settings_for(instrument.path());
    settings.file = folder / "trace.csv";
    Capture capture(settings);
    capture.start();
    instrument.write("tail of a line\r\n1.5\r\n-2.25\r\nOL\r\n3\r\n");
    ASSERT_TRUE(soon([&] { return capture.counters().readings == 3; }));
    EXPECT_EQ(capture.state(), LineState::running);
    EXPECT_EQ(capture.message(), "");
    capture.stop();

    EXPECT_EQ(capture.state(), LineState::ended);
    std::vector<Reading> readings;
    pull_all(capture, readings);
    ASSERT_EQ(readings.size(), 4u);
    EXPECT_EQ(readings[1].value, -2.25);
    EXPECT_TRUE(readings[3].has_note) << "that a line was discarded";
    EXPECT_EQ(capture.counters().discarded_bytes, std::string("OL\r").size()) << "the tail is no damage";

    const trace::RawTrace saved = trace::load_trace_csv(*settings.file);
    EXPECT_TRUE(saved.from_arrivals);
    EXPECT_THAT(saved.pressure, testing::ElementsAre(1.5, -2.25, 3.0, testing::IsNan()));
    EXPECT_EQ(saved.moment_s[2], readings[2].arrival_s);
}

TEST(Capture, says_that_no_byte_comes_and_runs_on_when_one_does)
{
    const InstrumentEnd instrument;
    Capture capture(settings_for(instrument.path()));
    capture.start();
    ASSERT_TRUE(soon([&] { return capture.state() == LineState::silent; }));
    EXPECT_THAT(capture.message(), HasSubstr("no byte for 0.2 s on " + instrument.path() + " at 115200 baud"));
    instrument.write("\n1\n");
    EXPECT_TRUE(soon([&] { return capture.state() == LineState::running; }));
    EXPECT_EQ(capture.message(), "");
}

TEST(Capture, says_that_bytes_come_and_why_they_are_no_readings)
{
    const InstrumentEnd instrument;
    CaptureSettings settings = settings_for(instrument.path());
    settings.instrument.language.field = 3;
    Capture capture(settings);
    capture.start();
    ASSERT_TRUE(soon([&] {
        instrument.write("1.0,2.0\n");
        return capture.state() == LineState::silent;
    }));
    EXPECT_THAT(capture.message(), HasSubstr("though bytes arrive (field 3 is missing, a line has 2 fields)"));
    EXPECT_THAT(capture.message(), HasSubstr("are baud rate, parity, field and unit right?"));
}

TEST(Capture, sends_the_start_text_and_the_stop_text)
{
    const InstrumentEnd instrument;
    CaptureSettings settings = settings_for(instrument.path());
    settings.instrument.port.start = "GO\r\n";
    settings.instrument.port.stop = "HALT\r\n";
    Capture capture(settings);
    capture.start();
    EXPECT_EQ(instrument.read(2000), "GO\r\n");
    capture.stop();
    EXPECT_EQ(instrument.read(2000), "HALT\r\n");
}

TEST(Capture, neither_reads_nor_blames_what_comes_before_the_instrument_has_settled)
{
    const InstrumentEnd instrument;
    CaptureSettings settings = settings_for(instrument.path());
    settings.instrument.port.settle_s = 0.3;
    Capture capture(settings);
    capture.start();
    instrument.write("\n7\n8\n");
    ASSERT_TRUE(soon([&] { return capture.counters().bytes == 5; }));
    EXPECT_EQ(capture.counters().readings, 0u);
    ASSERT_TRUE(soon([&] {
        instrument.write("9\n");
        return capture.counters().readings > 0;
    }));
    EXPECT_EQ(capture.counters().discarded_bytes, 0u);
}

TEST(Capture, does_not_blame_the_line_for_the_halves_of_lines_at_its_ends)
{
    const InstrumentEnd instrument;
    Capture capture(settings_for(instrument.path()));
    capture.start();
    instrument.write("3.25\n1.0\n2.0\n4.5");
    ASSERT_TRUE(soon([&] { return capture.counters().readings == 2; }));
    capture.stop();
    EXPECT_EQ(capture.counters().discarded_bytes, 0u);
}

TEST(Capture, counts_what_is_damaged_between_readings)
{
    const InstrumentEnd instrument;
    Capture capture(settings_for(instrument.path()));
    capture.start();
    instrument.write("\n1.0\n###\n2.0\n");
    ASSERT_TRUE(soon([&] { return capture.counters().readings == 2; }));
    capture.stop();
    EXPECT_EQ(capture.counters().discarded_bytes, 4u);
}

TEST(Capture, waits_for_a_lost_instrument_and_goes_on_when_its_link_is_made_anew)
{
    const TemporaryFolder folder;
    const auto link = folder / "port";
    InstrumentEnd before;
    std::filesystem::create_symlink(before.path(), link);
    CaptureSettings settings = settings_for(link.string());
    settings.file = folder / "trace.csv";
    Capture capture(settings);
    capture.start();
    EXPECT_TRUE(capture.is_pseudo_terminal());
    before.write("\n1\n2\n3.4");
    ASSERT_TRUE(soon([&] { return capture.counters().readings == 2; }));
    before.unplug();
    ASSERT_TRUE(soon([&] { return capture.state() == LineState::lost; }));
    EXPECT_THAT(capture.message(), HasSubstr("is gone; plug it in again"));

    const InstrumentEnd after;
    std::filesystem::remove(link);
    std::filesystem::create_symlink(after.path(), link);
    ASSERT_TRUE(soon([&] {
        after.write("4\n");
        return capture.counters().readings >= 3;
    }));
    EXPECT_EQ(capture.state(), LineState::running);
    capture.stop();

    const trace::RawTrace saved = trace::load_trace_csv(*settings.file);
    ASSERT_GE(saved.notes.size(), 2u);
    EXPECT_EQ(saved.notes[0].kind, NoteKind::lost);
    EXPECT_EQ(saved.notes[0].row, 2u);
    EXPECT_EQ(saved.notes[1].kind, NoteKind::back);
    EXPECT_EQ(saved.pressure[4], 4.0);
}

// What has just come may be refused for a moment and is not complained of; what stays refused is.
TEST(Capture, says_what_keeps_an_instrument_that_came_back_from_being_opened)
{
    const TemporaryFolder folder;
    const auto link = folder / "port";
    InstrumentEnd before;
    std::filesystem::create_symlink(before.path(), link);
    Capture capture(settings_for(link.string()));
    capture.start();
    before.write("\n1\n");
    ASSERT_TRUE(soon([&] { return capture.counters().readings == 1; }));
    before.unplug();
    ASSERT_TRUE(soon([&] { return capture.state() == LineState::lost; }));

    const InstrumentEnd after;
    const int other_program = ::open(after.path().c_str(), O_RDWR | O_NOCTTY | O_CLOEXEC);
    ASSERT_EQ(::flock(other_program, LOCK_EX), 0);
    std::filesystem::remove(link);
    std::filesystem::create_symlink(after.path(), link);
    EXPECT_TRUE(soon([&] { return capture.message().find("another program is using it") != std::string::npos; }));
    ::close(other_program);
    EXPECT_TRUE(soon([&] {
        after.write("\n2\n");
        return capture.counters().readings > 1;
    }));
}

TEST(Capture, never_opens_a_pseudo_terminal_that_was_given_to_somebody_else)
{
    InstrumentEnd before;
    const std::string path = before.path();
    CaptureSettings settings = settings_for(path);
    settings.wait_s = 0.8;
    Capture capture(settings);
    capture.start();
    before.write("\n1\n");
    ASSERT_TRUE(soon([&] { return capture.counters().readings == 1; }));
    before.unplug();
    ASSERT_TRUE(soon([&] { return capture.state() == LineState::lost; }));
    // The number is given out again: to us, or to another program that was quicker; either is a stranger.
    std::list<InstrumentEnd> strangers;
    ASSERT_TRUE(soon([&] {
        strangers.emplace_back();
        return strangers.back().path() == path || std::filesystem::exists(path);
    })) << "nobody got the number";
    ASSERT_TRUE(soon([&] { return capture.state() == LineState::ended; }));
    EXPECT_THAT(capture.message(), HasSubstr("did not come back within 0.8 s"));
}

TEST(Capture, counts_readings_that_the_instrument_numbered_and_that_never_came)
{
    const InstrumentEnd instrument;
    CaptureSettings settings = settings_for(instrument.path());
    settings.instrument.language.count_field = 2;
    Capture capture(settings);
    capture.start();
    instrument.write("\n1,10\n1,11\n1,15\n1,16\n");
    ASSERT_TRUE(soon([&] { return capture.counters().readings == 4; }));
    EXPECT_EQ(capture.counters().lost_readings, 3u);
}

// A line that lost its end runs into the next one: "12" and "13,5" are read as count 1213.
TEST(Capture, does_not_take_a_damaged_count_for_a_thousand_lost_readings)
{
    const InstrumentEnd instrument;
    CaptureSettings settings = settings_for(instrument.path());
    settings.instrument.language.count_field = 1;
    settings.instrument.language.field = 2;
    Capture capture(settings);
    capture.start();
    instrument.write("\n10,1\n11,1\n1213,5\n14,1\n15,1\n");
    ASSERT_TRUE(soon([&] { return capture.counters().readings == 5; }));
    EXPECT_EQ(capture.counters().lost_readings, 1u);
}

TEST(Capture, counts_what_a_display_that_never_comes_did_not_get_while_the_file_gets_all)
{
    const TemporaryFolder folder;
    const InstrumentEnd instrument;
    CaptureSettings settings = settings_for(instrument.path());
    settings.file = folder / "trace.csv";
    Capture capture(settings);
    capture.start();
    std::string thousand = "\n";
    for (int i = 0; i < 1000; ++i) {
        thousand += "1\n";
    }
    for (int i = 0; i < 70; ++i) {
        instrument.write(thousand);
    }
    ASSERT_TRUE(soon([&] { return capture.counters().readings == 70000; }, 60000ms));
    capture.stop();
    std::vector<Reading> readings;
    pull_all(capture, readings);
    EXPECT_GT(capture.counters().not_displayed, 0u);
    const auto saved = trace::load_trace_csv(*settings.file); // notes of a busy machine included
    EXPECT_EQ(saved.pressure.size() - saved.notes.size(), 70000u);
    EXPECT_EQ(readings.size() + capture.counters().not_displayed, saved.pressure.size());
}

// A pipe that nobody empties takes 64 kB and then holds up whoever writes, as a disk does that hangs.
TEST(Capture, goes_on_while_the_disk_takes_nothing)
{
    const TemporaryFolder folder;
    const InstrumentEnd instrument;
    CaptureSettings settings = settings_for(instrument.path());
    settings.file = folder / "trace.csv";
    ASSERT_EQ(::mkfifo(settings.file->c_str(), 0600), 0);
    const int disk = ::open(settings.file->c_str(), O_RDWR | O_CLOEXEC);
    ASSERT_GE(disk, 0);
    Capture capture(settings);
    capture.start();
    instrument.write("\n");
    for (int i = 0; i < 20000; ++i) {
        instrument.write("1.25\n");
    }
    std::vector<Reading> readings;
    EXPECT_TRUE(soon([&] {
        pull_all(capture, readings);
        return readings.size() == 20000;
    }));
    EXPECT_EQ(capture.state(), LineState::running);

    std::size_t rows = 0;
    std::thread emptying([&] {
        std::array<char, 65536> some{};
        while (rows < 20001) { // and a header
            const ssize_t bytes = ::read(disk, some.data(), some.size());
            rows += static_cast<std::size_t>(std::count(some.data(), some.data() + std::max<ssize_t>(bytes, 0), '\n'));
        }
    });
    capture.stop();
    emptying.join();
    ::close(disk);
    EXPECT_EQ(rows, 20001u);
}

TEST(Capture, leaves_a_note_in_the_file_where_bytes_were_discarded)
{
    const TemporaryFolder folder;
    const InstrumentEnd instrument;
    CaptureSettings settings = settings_for(instrument.path());
    settings.file = folder / "trace.csv";
    Capture capture(settings);
    capture.start();
    instrument.write("tail\n1\n");
    ASSERT_TRUE(soon([&] { return capture.counters().readings == 1; }));
    instrument.write("garbage\n2\n3.");
    std::vector<Reading> readings;
    ASSERT_TRUE(soon([&] {
        pull_all(capture, readings);
        return readings.size() == 3;
    }));
    capture.stop();
    const trace::RawTrace saved = trace::load_trace_csv(*settings.file);
    // Neither the tail before the first reading nor the line cut by the end is anybody's damage.
    ASSERT_EQ(saved.notes.size(), 1u);
    EXPECT_EQ(saved.notes[0].text, "discarded 8 bytes");
    EXPECT_EQ(saved.notes[0].kind, NoteKind::other);
    EXPECT_EQ(capture.counters().discarded_bytes, 8u);
}

TEST(Capture, may_be_watched_and_pulled_from_other_threads_while_it_runs)
{
    const TemporaryFolder folder;
    const InstrumentEnd instrument;
    CaptureSettings settings = settings_for(instrument.path());
    settings.file = folder / "trace.csv";
    settings.silence_s = 60.0;
    settings.instrument.language.count_field = 2;
    Capture capture(settings);
    capture.start();
    std::atomic<bool> done = false;
    std::thread watcher([&] {
        while (!done) {
            EXPECT_LE(capture.counters().lost_readings, 0u);
            EXPECT_NE(capture.state(), LineState::failed);
            EXPECT_EQ(capture.message(), "");
        }
    });
    std::thread writer([&] {
        instrument.write("\n");
        for (int i = 0; i < 20000; ++i) {
            instrument.write("1.5," + std::to_string(i) + "\n");
        }
    });
    std::vector<Reading> readings;
    EXPECT_TRUE(soon(
        [&] {
            pull_all(capture, readings);
            return readings.size() == 20000;
        },
        60000ms));
    writer.join();
    done = true;
    watcher.join();
    capture.stop();
    for (std::size_t i = 0; i < readings.size(); ++i) {
        ASSERT_EQ(readings[i].count, static_cast<std::int64_t>(i));
        ASSERT_TRUE(i == 0 || readings[i].arrival_s >= readings[i - 1].arrival_s);
    }
}

TEST(Capture, that_cannot_write_any_more_says_so_and_keeps_what_was_written)
{
    const TemporaryFolder folder;
    const InstrumentEnd instrument;
    CaptureSettings settings = settings_for(instrument.path());
    settings.file = folder / "trace.csv";
    const std::string said = in_child([&] {
        std::signal(SIGXFSZ, SIG_IGN);
        const rlimit limit{2000, 2000};
        ::setrlimit(RLIMIT_FSIZE, &limit);
        Capture capture(settings);
        capture.start();
        const bool failed = soon([&] {
            instrument.write("\n1.25\n");
            return capture.state() == LineState::failed;
        });
        capture.stop();
        return failed && capture.state() == LineState::failed ? capture.message() : "never failed";
    });
    EXPECT_THAT(said,
                HasSubstr("trace.csv: the file may not grow any further; what was written before is in the file"));
    const trace::RawTrace saved = trace::load_trace_csv(*settings.file);
    EXPECT_FALSE(saved.cut_last_line);
    EXPECT_GT(saved.pressure.size(), 20u);
}

TEST(Capture, refuses_to_start_where_the_trace_cannot_be_saved_and_frees_the_port)
{
    const InstrumentEnd instrument;
    CaptureSettings settings = settings_for(instrument.path());
    settings.file = "/dev/full"; // Linux, full(4): every write fails with ENOSPC
    Capture refused(settings);
    EXPECT_THROW(refused.start(), trace::InputError);
    settings.file.reset();
    Capture capture(settings);
    EXPECT_NO_THROW(capture.start());
}

} // namespace
} // namespace zeroline::serial::test
