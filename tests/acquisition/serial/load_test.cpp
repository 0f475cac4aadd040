// 10,000 readings a second: nothing lost, how late they come, and what that costs beside `cat` of the same stream.

#include "acquisition/serial/capture.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "tests/acquisition/serial/captured.hpp"
#include "tests/acquisition/serial/pty_pair.hpp"

#include <gmock/gmock.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <algorithm>
#include <csignal>
#include <iostream>

namespace zeroline::serial::test {
namespace {

using Clock = std::chrono::steady_clock;

constexpr int kBatches = 5000; // one a millisecond
constexpr int kBatch = 10;
constexpr std::size_t kReadings = std::size_t{kBatches} * kBatch;

// Ten lines each millisecond; returns when each batch was sent.
std::vector<Clock::time_point> play(const InstrumentEnd& instrument)
{
    std::vector<Clock::time_point> sent;
    instrument.write("\n");
    auto next = Clock::now();
    for (int batch = 0; batch < kBatches; ++batch) {
        std::string lines;
        for (int i = 0; i < kBatch; ++i) {
            lines += "-12.25," + std::to_string(batch * kBatch + i) + "\r\n";
        }
        next += 1ms;
        std::this_thread::sleep_until(next);
        sent.push_back(Clock::now());
        instrument.write(lines);
    }
    return sent;
}

// Processor time of another program that reads the stream, in seconds.
double processor_time_s(std::vector<std::string> command, const InstrumentEnd& instrument)
{
    std::vector<char*> arguments;
    for (std::string& word : command) {
        arguments.push_back(word.data());
    }
    arguments.push_back(nullptr);
    pid_t child = -1;
    EXPECT_EQ(::posix_spawnp(&child, arguments[0], nullptr, nullptr, arguments.data(), environ), 0);
    std::this_thread::sleep_for(200ms);
    play(instrument);
    std::this_thread::sleep_for(200ms);
    ::kill(child, SIGKILL);
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
    const Folder folder;
    const InstrumentEnd instrument;
    CaptureSettings settings;
    settings.port = instrument.path();
    settings.instrument = plain_instrument();
    settings.instrument.language.count_field = 2;
    settings.file = folder / "trace.csv";
    Capture capture(settings);
    capture.start();
    std::vector<Clock::time_point> came;
    std::vector<Clock::time_point> sent;
    std::thread player([&] { sent = play(instrument); });
    std::vector<Reading> readings;
    EXPECT_TRUE(soon(
        [&] {
            pull_all(capture, readings);
            came.resize(readings.size(), Clock::now());
            std::this_thread::sleep_for(100us);
            return readings.size() == kReadings;
        },
        60000ms));
    player.join();
    capture.stop();
    EXPECT_EQ(capture.counters().lost_readings, 0u);
    EXPECT_EQ(capture.counters().not_displayed, 0u);
    EXPECT_EQ(trace::load_trace_csv(*settings.file).pressure.size(), kReadings);

    std::vector<double> delay_ms;
    for (std::size_t i = 0; i < came.size(); ++i) {
        delay_ms.push_back(std::chrono::duration<double, std::milli>(came[i] - sent[i / kBatch]).count());
    }
    std::sort(delay_ms.begin(), delay_ms.end());
    std::cout << "delay from the wire to the consumer: median " << delay_ms[delay_ms.size() / 2]
              << " ms, 99th percentile " << delay_ms[delay_ms.size() * 99 / 100] << " ms\n";
    EXPECT_LT(delay_ms[delay_ms.size() / 2], 20.0); // the aim is 0.5 ms; a busy machine may be slower, not this much
}

TEST(Load, costs_little_more_than_copying_the_stream)
{
    const Folder folder;
    const InstrumentEnd captured;
    const InstrumentEnd copied;
    const double capture_s =
        processor_time_s({ZEROLINE_CAPTURE_PROGRAM, captured.path(), (folder / "trace.csv").string()}, captured);
    const double copy_s =
        processor_time_s({"sh", "-c", "exec cat " + copied.path() + " > " + (folder / "copy.txt").string()}, copied);
    ASSERT_EQ(trace::load_trace_csv(folder / "trace.csv").pressure.size(), kReadings);
    std::cout << "processor time for " << kReadings << " readings: capture " << capture_s << " s, cat " << copy_s
              << " s, ratio " << capture_s / copy_s << "\n";
    EXPECT_LT(capture_s, 0.5 * kBatches / 1000.0) << "half a processor";
}

} // namespace
} // namespace zeroline::serial::test
