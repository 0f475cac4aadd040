// A whole assessment in ns a sample, beside one pass over the same samples and beside the measuring alone.

#include "tests/analysis/verification/synthetic.hpp"

#include <benchmark/benchmark.h>

#include <algorithm>

namespace zeroline::verification {
namespace {

constexpr double kRate_hz = 1000.0;
constexpr int kCycles = 120; // ten minutes

const synthetic::Bench& subject()
{
    static const auto kSubject = [] {
        synthetic::Plan plan;
        plan.rate_hz = kRate_hz;
        plan.cycles.resize(kCycles);
        return synthetic::bench(plan);
    }();
    return kSubject;
}

signal::Samples samples() { return {subject().trace.time_s, subject().trace.pressure_cmH2O}; }

void count_samples(benchmark::State& state)
{
    state.counters["per_sample"] =
        benchmark::Counter(static_cast<double>(samples().size()),
                           benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

/// What nobody can do without: each sample seen once.
void one_pass(benchmark::State& state)
{
    for (auto _ : state) {
        double sum = 0.0, low = 1e300, high = -1e300;
        for (const double pressure : samples().pressure_cmH2O) {
            sum += pressure;
            low = std::min(low, pressure);
            high = std::max(high, pressure);
        }
        benchmark::DoNotOptimize(sum);
        benchmark::DoNotOptimize(low);
        benchmark::DoNotOptimize(high);
    }
    count_samples(state);
}

void measuring(benchmark::State& state)
{
    for (auto _ : state) {
        benchmark::DoNotOptimize(signal::measure(samples(), {}));
    }
    count_samples(state);
}

void whole_assessment(benchmark::State& state)
{
    for (auto _ : state) {
        benchmark::DoNotOptimize(subject().result());
    }
    count_samples(state);
}

BENCHMARK(one_pass)->Unit(benchmark::kMillisecond);
BENCHMARK(measuring)->Unit(benchmark::kMillisecond);
BENCHMARK(whole_assessment)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime(); // it takes more than one thread

} // namespace
} // namespace zeroline::verification
