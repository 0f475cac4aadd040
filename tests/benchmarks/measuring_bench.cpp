// What measuring costs a sample, beside one pass over the same samples in the same run: what grows with samples, what
// an edge costs (pauses of 0.6 s, 100 Hz), and what is hard (a narrow band, noise, an oscillation).

#include "tests/analysis/signal/analytic.hpp"

#include <benchmark/benchmark.h>

#include <algorithm>

namespace zeroline::signal {
namespace {

struct Comparison {
    double rate_hz = 1000.0;
    double noise_cmH2O = 0.1;
    double pause_s = 1.0;
    double oscillation_cmH2O = 0.0;
    double band_cmH2O = 2.0;
    double phase_s = 1.5;
    int cycles = 150; // ten minutes
};

analytic::Trace traced(const Comparison& comparison)
{
    analytic::CycleForm form;
    form.cycles = comparison.cycles;
    form.insufflation_s = form.exsufflation_s = comparison.phase_s;
    form.pause_s = comparison.pause_s;
    form.oscillation_hz = 10.0;
    form.oscillation_cmH2O = comparison.oscillation_cmH2O;
    analytic::Trouble trouble;
    trouble.noise_cmH2O = comparison.noise_cmH2O;
    std::mt19937_64 random(1);
    return analytic::sampled(analytic::cycling(form), comparison.rate_hz, trouble, random);
}

void count_samples(benchmark::State& state, const analytic::Trace& trace)
{
    state.counters["per_sample"] =
        benchmark::Counter(static_cast<double>(trace.time_s.size()),
                           benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

/// What nobody can do without: each sample seen once.
void one_pass(benchmark::State& state, const Comparison& comparison)
{
    const auto trace = traced(comparison);
    for (auto _ : state) {
        double sum = 0.0, low = 1e300, high = -1e300;
        for (const double pressure : trace.pressure_cmH2O) {
            sum += pressure;
            low = std::min(low, pressure);
            high = std::max(high, pressure);
        }
        benchmark::DoNotOptimize(sum);
        benchmark::DoNotOptimize(low);
        benchmark::DoNotOptimize(high);
    }
    count_samples(state, trace);
}

/// Without zero readings: level, rest and noise are found in the samples, too.
void measuring(benchmark::State& state, const Comparison& comparison)
{
    const auto trace = traced(comparison);
    MeasureOptions options;
    options.zero_band_cmH2O = comparison.band_cmH2O;
    for (auto _ : state) {
        benchmark::DoNotOptimize(measure(trace.samples(), options));
    }
    count_samples(state, trace);
}

const Comparison kPlain{};
const Comparison kNarrow{1000.0, 0.1, 1.0, 0.0, 1.0};
const Comparison kNoisy{1000.0, 0.5, 1.0, 0.0, 1.0};
const Comparison kOscillating{1000.0, 0.1, 1.0, 4.0, 2.0};
const Comparison kShortPauses{1000.0, 0.1, 0.6, 0.0, 2.0};
const Comparison kSlowRate{100.0, 0.1, 1.0, 0.0, 2.0};
const Comparison kSlowOscillating{100.0, 0.1, 1.0, 4.0, 2.0};
// As many samples with a tenth of the edges: the difference is what edges cost, the rest grows with samples.
const Comparison kFewEdges{1000.0, 0.1, 10.0, 0.0, 2.0, 15.0, 15};

BENCHMARK_CAPTURE(one_pass, of_1000_Hz, kPlain)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(measuring, of_1000_Hz, kPlain)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(measuring, band_of_1_cmH2O, kNarrow)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(measuring, noise_of_half_a_cmH2O_and_that_band, kNoisy)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(measuring, oscillation_of_10_Hz, kOscillating)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(measuring, pauses_of_0_6_s, kShortPauses)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(one_pass, of_100_Hz, kSlowRate)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(measuring, of_100_Hz, kSlowRate)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(measuring, oscillation_at_100_Hz, kSlowOscillating)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(measuring, phases_ten_times_as_long, kFewEdges)->Unit(benchmark::kMillisecond);

} // namespace
} // namespace zeroline::signal
