#include "acquisition/trace/calibration.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "tests/temporary_folder.hpp"

#include <benchmark/benchmark.h>

#include <charconv>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>

namespace {

using zeroline::trace::TraceCsvWriter;

std::string two_decimals(double value)
{
    char text[32];
    const int length = std::snprintf(text, sizeof text, "%.2f", value);
    return {text, static_cast<std::size_t>(length)};
}

// An hour at 1 kHz: cycles of 40 and -40 with noise, times in milliseconds, hundredths of cmH2O.
const std::string& hour_long_text()
{
    static const std::string text = [] {
        std::mt19937_64 random(7);
        std::normal_distribution<double> noise(0.0, 0.05);
        std::string out = "time_s,pressure_cmH2O\n";
        out.reserve(70'000'000);
        char time[32];
        for (int i = 0; i < 3'600'000; ++i) {
            const int in_cycle = i % 5000;
            const double level = in_cycle < 1500 ? 40.0 : (in_cycle < 3000 ? -40.0 : 0.0);
            const int length = std::snprintf(time, sizeof time, "%d.%03d,", i / 1000, i % 1000);
            out.append(time, static_cast<std::size_t>(length));
            out += two_decimals(level + noise(random));
            out += '\n';
        }
        return out;
    }();
    return text;
}

void count_bytes(benchmark::State& state)
{
    state.SetBytesProcessed(static_cast<std::int64_t>(state.iterations()) *
                            static_cast<std::int64_t>(hour_long_text().size()));
}

// The least that can be done with these bytes: every number to a double, nothing checked but the end of the text.
void bare_from_chars(benchmark::State& state)
{
    const std::string& text = hour_long_text();
    for (auto _ : state) {
        const char* end = text.data() + text.size();
        double sum = 0.0;
        for (const char* p = text.data() + text.find('\n') + 1; p < end; ++p) {
            double value = 0.0;
            p = std::from_chars(p, end, value).ptr;
            sum += value;
        }
        benchmark::DoNotOptimize(sum);
    }
    count_bytes(state);
}

// As above, and the numbers kept, in vectors of the right size.
void bare_from_chars_kept(benchmark::State& state)
{
    const std::string& text = hour_long_text();
    for (auto _ : state) {
        std::vector<double> time_s, pressure;
        time_s.reserve(3'600'000);
        pressure.reserve(3'600'000);
        const char* end = text.data() + text.size();
        for (const char* p = text.data() + text.find('\n') + 1; p < end; ++p) {
            double value = 0.0;
            p = std::from_chars(p, end, value).ptr + 1;
            time_s.push_back(value);
            p = std::from_chars(p, end, value).ptr;
            pressure.push_back(value);
        }
        benchmark::DoNotOptimize(time_s.data());
        benchmark::DoNotOptimize(pressure.data());
    }
    count_bytes(state);
}

void parse(benchmark::State& state)
{
    const std::string& text = hour_long_text();
    for (auto _ : state) {
        auto trace = zeroline::trace::parse_trace_csv(text);
        benchmark::DoNotOptimize(trace.moment_s.data());
    }
    count_bytes(state);
}

void load_and_derive(benchmark::State& state)
{
    const zeroline::TemporaryFolder folder;
    const auto file = folder / "hour.csv";
    std::ofstream(file, std::ios::binary) << hour_long_text();
    for (auto _ : state) {
        const auto trace = zeroline::trace::derive(zeroline::trace::load_trace_csv(file), nullptr);
        benchmark::DoNotOptimize(trace.time_s.data());
    }
    count_bytes(state);
}

BENCHMARK(bare_from_chars)->Unit(benchmark::kMillisecond);
BENCHMARK(bare_from_chars_kept)->Unit(benchmark::kMillisecond);
BENCHMARK(parse)->Unit(benchmark::kMillisecond);
BENCHMARK(load_and_derive)->Unit(benchmark::kMillisecond);

} // namespace
