// `zeroline capture` is killed (kill -9): the file always loads, and at most 200 ms is missing.

#include "acquisition/trace/trace_csv.hpp"
#include "tests/acquisition/serial/captured.hpp"
#include "tests/acquisition/serial/process.hpp"
#include "tests/acquisition/serial/pty_pair.hpp"
#include "tests/temporary_folder.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <random>

namespace zeroline::serial::test {
namespace {

using Clock = std::chrono::steady_clock;

// Sends 0, 1, 2, ... one each millisecond until `end`; returns when each was sent.
std::vector<Clock::time_point> send_until(const InstrumentEnd& instrument, Clock::time_point end)
{
    std::vector<Clock::time_point> sent;
    instrument.write("\n");
    while (Clock::now() < end) {
        sent.push_back(Clock::now());
        instrument.write(std::to_string(sent.size() - 1) + "\r\n");
        std::this_thread::sleep_for(1ms);
    }
    return sent;
}

// As the bench's owner would write it, with nothing more than is needed.
void describe_instrument(const std::filesystem::path& file)
{
    std::ofstream(file) << R"({"schema": "zeroline/instrument/1", "name": "invented", "serial": "1",
        "port": {"baud": 115200, "data_bits": 8, "parity": "none", "stop_bits": 1},
        "language": {"kind": "numeric-lines", "unit": "cmH2O"},
        "range": {"low": -100, "high": 100, "resolution": 0.01, "unit": "cmH2O"},
        "rate": {"nominal_hz": 1000, "clock_ppm": 100},
        "calibration": {"certificate": "CAL-1", "on": "2026-01-01", "due": "2099-01-01", "expanded_uncertainty": 0.2,
                        "coverage_factor": 2}})";
}

// Kills a capture at a random moment; its file must load and hold what was sent. How long before the kill it ends.
std::chrono::nanoseconds missing_after_kill(std::mt19937& random)
{
    const TemporaryFolder folder;
    const InstrumentEnd instrument;
    const auto file = folder / "trace.csv";
    describe_instrument(folder / "instrument.json");
    Process capture({ZEROLINE_PROGRAM, "capture", "--port", instrument.path(), "--instrument",
                     (folder / "instrument.json").string(), "--out", file.string()});
    EXPECT_TRUE(soon([&] { return std::filesystem::exists(file) && std::filesystem::file_size(file) > 0; }));

    const auto lifetime = std::chrono::milliseconds(std::uniform_int_distribution(250, 650)(random));
    const auto sent = send_until(instrument, Clock::now() + lifetime);
    const auto killed = Clock::now();
    capture.end(SIGKILL);

    const trace::RawTrace saved = trace::load_trace_csv(file);
    for (std::size_t i = 0; i < saved.pressure.size(); ++i) {
        EXPECT_EQ(saved.pressure[i], static_cast<double>(i));
    }
    EXPECT_LE(saved.pressure.size(), sent.size());
    return saved.pressure.size() >= sent.size() ? 0ms : killed - sent[saved.pressure.size()];
}

class Killed : public testing::TestWithParam<int> {};

TEST_P(Killed, capture_leaves_a_file_that_loads_and_misses_at_most_200_ms)
{
    std::mt19937 random(static_cast<unsigned>(GetParam()));
    // A busy computer can hold a program up for longer than that by itself; what the program does wrong, it does again.
    auto missing = missing_after_kill(random);
    for (int again = 0; again < 2 && missing > 200ms; ++again) {
        missing = missing_after_kill(random);
    }
    EXPECT_LE(missing, 200ms);
}

INSTANTIATE_TEST_SUITE_P(at_random_moments, Killed, testing::Range(0, 50));

} // namespace
} // namespace zeroline::serial::test
