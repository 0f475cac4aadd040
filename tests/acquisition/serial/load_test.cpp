// What a fast line costs: 10,000 readings a second without loss, how late they come, what `zeroline capture` takes
// beside `cat` of the same stream; and a soak at 1 kHz. ZEROLINE_LOAD_S and ZEROLINE_SOAK_S say for how long (60 s, an
// hour).

#include "acquisition/serial/capture.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "tests/acquisition/serial/captured.hpp"
#include "tests/acquisition/serial/pty_pair.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <malloc.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <algorithm>
#include <atomic>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <iostream>

namespace zeroline::serial::test {
namespace {

using Clock = std::chrono::steady_clock;

int seconds_from(const char* variable, int otherwise)
{
    const char* const text = std::getenv(variable);
    return text == nullptr ? otherwise : std::atoi(text);
}

/// Sends `a_millisecond` lines each millisecond; remembers when each batch was due to leave and did.
class Player {
public:
    Player(int a_millisecond, int milliseconds) : a_millisecond_(a_millisecond), milliseconds_(milliseconds)
    {
        sent.reserve(static_cast<std::size_t>(milliseconds));
    }

    void play(const InstrumentEnd& instrument)
    {
        sent.clear();
        instrument.write("\n");
        auto next = Clock::now();
        std::string lines;
        for (int batch = 0; batch < milliseconds_; ++batch) {
            lines.clear();
            for (int i = 0; i < a_millisecond_; ++i) {
                lines += "-12.25," + std::to_string(batch * a_millisecond_ + i) + "\r\n";
            }
            next += 1ms;
            std::this_thread::sleep_until(next);
            sent.push_back(Clock::now());
            instrument.write(lines);
        }
    }

    [[nodiscard]] std::size_t readings() const
    {
        return static_cast<std::size_t>(a_millisecond_) * static_cast<std::size_t>(milliseconds_);
    }
    [[nodiscard]] Clock::time_point sent_at(std::size_t reading) const
    {
        return sent[reading / static_cast<std::size_t>(a_millisecond_)];
    }

    std::vector<Clock::time_point> sent;

private:
    int a_millisecond_;
    int milliseconds_;
};

CaptureSettings fast_line(const InstrumentEnd& instrument, const std::filesystem::path& file)
{
    CaptureSettings settings;
    settings.port = instrument.path();
    settings.instrument = plain_instrument();
    settings.instrument.language.count_field = 2;
    settings.file = file;
    return settings;
}

std::filesystem::path described(const TemporaryFolder& folder)
{
    auto file = folder / "instrument.json";
    std::ofstream(file) << R"({"schema": "zeroline/instrument/1", "name": "invented", "serial": "1",
        "port": {"baud": 115200, "data_bits": 8, "parity": "none", "stop_bits": 1},
        "language": {"kind": "numeric-lines", "count_field": 2, "unit": "cmH2O"},
        "range": {"low": -100, "high": 100, "resolution": 0.01, "unit": "cmH2O"},
        "rate": {"nominal_hz": 10000, "clock_ppm": 100},
        "calibration": {"certificate": "CAL-1", "on": "2026-01-01", "due": "2099-01-01", "expanded_uncertainty": 0.2,
                        "coverage_factor": 2}})";
    return file;
}

/// Processor time in seconds of another program that reads the stream.
double processor_time_s(std::vector<std::string> command, const InstrumentEnd& instrument, Player& player)
{
    std::vector<char*> arguments;
    for (std::string& word : command) {
        arguments.push_back(word.data());
    }
    arguments.push_back(nullptr);
    pid_t child = -1;
    EXPECT_EQ(::posix_spawnp(&child, arguments[0], nullptr, nullptr, arguments.data(), environ), 0);
    std::this_thread::sleep_for(1s);
    player.play(instrument);
    std::this_thread::sleep_for(500ms);
    ::kill(child, SIGINT);
    rusage used{};
    int status = 0;
    ::wait4(child, &status, 0, &used);
    const auto seconds = [](const timeval& t) {
        return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
    };
    return seconds(used.ru_utime) + seconds(used.ru_stime);
}

TEST(Load, of_ten_thousand_readings_a_second_is_taken_without_loss)
{
    const TemporaryFolder folder;
    const InstrumentEnd instrument;
    Player player(10, 1000 * seconds_from("ZEROLINE_LOAD_S", 60));
    const auto settings = fast_line(instrument, folder / "trace.csv");
    Capture capture(settings);
    capture.start();
    std::thread playing([&] { player.play(instrument); });
    std::vector<Clock::time_point> came;
    came.reserve(player.readings());
    std::vector<Reading> readings;
    const auto patience = std::chrono::seconds(seconds_from("ZEROLINE_LOAD_S", 60) + 60);
    EXPECT_TRUE(soon(
        [&] {
            readings.clear();
            pull_all(capture, readings);
            came.insert(came.end(), readings.size(), Clock::now());
            std::this_thread::sleep_for(50us);
            return came.size() == player.readings();
        },
        patience));
    playing.join();
    capture.stop();
    EXPECT_EQ(capture.counters().lost_readings, 0u);
    EXPECT_EQ(capture.counters().not_displayed, 0u);
    EXPECT_EQ(trace::load_trace_csv(*settings.file).pressure.size(), player.readings());

    std::vector<double> delay_ms;
    for (std::size_t i = 0; i < came.size(); ++i) {
        delay_ms.push_back(std::chrono::duration<double, std::milli>(came[i] - player.sent_at(i)).count());
    }
    std::sort(delay_ms.begin(), delay_ms.end());
    std::cout << "delay from the pseudo-terminal to the consumer, " << delay_ms.size() << " readings: median "
              << delay_ms[delay_ms.size() / 2] << " ms, 99th percentile " << delay_ms[delay_ms.size() * 99 / 100]
              << " ms, largest " << delay_ms.back() << " ms\n";
}

TEST(Load, costs_little_more_than_copying_the_stream)
{
    const TemporaryFolder folder;
    const InstrumentEnd captured;
    const InstrumentEnd copied;
    Player player(10, 1000 * seconds_from("ZEROLINE_LOAD_S", 60));
    const double capture_s = processor_time_s({ZEROLINE_PROGRAM, "capture", "--port", captured.path(), "--instrument",
                                               described(folder).string(), "--out", (folder / "trace.csv").string()},
                                              captured, player);
    const double copy_s = processor_time_s(
        {"sh", "-c", "exec cat " + copied.path() + " > " + (folder / "copy.txt").string()}, copied, player);
    EXPECT_EQ(trace::load_trace_csv(folder / "trace.csv").pressure.size(), player.readings());
    std::cout << "processor time for " << player.readings() << " readings: capture " << capture_s << " s, cat "
              << copy_s << " s, ratio " << capture_s / copy_s << "\n";
}

// Live heap, not pages: what the process keeps for a stream that never ends.
TEST(Soak, at_a_thousand_readings_a_second_keeps_memory_flat_and_loses_nothing)
{
    const TemporaryFolder folder;
    const InstrumentEnd instrument;
    Player player(1, 1000 * seconds_from("ZEROLINE_SOAK_S", 3600));
    const auto settings = fast_line(instrument, folder / "trace.csv");
    Capture capture(settings);
    capture.start();
    std::thread playing([&] { player.play(instrument); });
    std::vector<Reading> readings;
    std::size_t taken = 0;
    std::size_t early_bytes = 0;
    std::size_t most_bytes = 0;
    while (taken < player.readings() && capture.state() != LineState::failed) {
        readings.clear();
        pull_all(capture, readings);
        taken += readings.size();
        const auto heap = ::mallinfo2();
        const std::size_t bytes = heap.uordblks + heap.hblkhd;
        early_bytes = taken < player.readings() / 10 ? std::max(early_bytes, bytes) : early_bytes;
        most_bytes = std::max(most_bytes, bytes);
        std::this_thread::sleep_for(20ms);
    }
    playing.join();
    capture.stop();
    EXPECT_EQ(taken, player.readings());
    EXPECT_EQ(capture.counters().lost_readings, 0u);
    EXPECT_EQ(capture.counters().not_displayed, 0u);
    EXPECT_LE(capture.counters().discarded_bytes, 1u); // the end of the line before the first
    EXPECT_LT(most_bytes, early_bytes + 262144) << "memory grows";
    EXPECT_EQ(trace::load_trace_csv(*settings.file).pressure.size(), player.readings());
    std::cout << player.readings() << " readings at 1 kHz; live heap " << early_bytes << " bytes in the first tenth, "
              << most_bytes << " at most\n";
}

} // namespace
} // namespace zeroline::serial::test
