#include "analysis/signal/phases.hpp"
#include "analysis/signal/recognition.hpp"
#include "tests/fuzz/input_bytes.hpp"

#include <cmath>
#include <cstdint>
#include <vector>

// Recognition and measuring on any samples: 4 bytes of options, then 3 bytes a sample (a time step, a pressure). Phases
// stand in order and hold numbers; whole blocks lead to the dwells that single samples lead to.

namespace {

using namespace zeroline::signal;
using zeroline::fuzz::Bytes;
using zeroline::fuzz::require;

struct Trace {
    std::vector<double> time_s;
    std::vector<double> pressure;
};

// Steps from 0.1 ms to 1 s; pressures to 32 cmH2O in hundredths... or, rarely, a thousand times that.
Trace trace_of(Bytes& bytes)
{
    Trace trace;
    double time_s = 0.0;
    while (bytes.size >= 3 && trace.time_s.size() < 20000) {
        const std::uint8_t step = bytes.next();
        time_s += step < 250 ? 1e-3 * (1 + step % 32) : 0.15 * (step - 249);
        const auto word = static_cast<std::uint16_t>(bytes.next() << 8U | bytes.next());
        const double pressure = static_cast<double>(static_cast<std::int16_t>(word)) / 300.0;
        trace.time_s.push_back(time_s);
        trace.pressure.push_back(step == 249 ? 1e3 * pressure : pressure);
    }
    return trace;
}

void require_same_dwells(Samples samples, ZoneBounds bounds)
{
    Recognizer recognizer(bounds);
    std::vector<Dwell> one_by_one;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (const auto ended = recognizer.step(i, samples.time_s[i], samples.pressure_cmH2O[i])) {
            one_by_one.push_back(*ended);
        }
    }
    if (const auto last = recognizer.under_way()) {
        one_by_one.push_back(*last);
    }
    const auto by_blocks = dwells_of(samples, blocks_of(samples.pressure_cmH2O), bounds);
    require(by_blocks.size() == one_by_one.size());
    for (std::size_t k = 0; k < by_blocks.size(); ++k) {
        require(by_blocks[k].zone == one_by_one[k].zone && by_blocks[k].first == one_by_one[k].first &&
                by_blocks[k].last == one_by_one[k].last);
    }
}

void require_sound(const std::vector<Phase>& phases, std::size_t samples)
{
    std::size_t last = 0;
    for (const Phase& phase : phases) {
        require(phase.first >= last && phase.first < phase.last && phase.last <= samples);
        require(!phase.plateau || std::isfinite(phase.plateau->value_cmH2O));
        require(!phase.entering || std::isfinite(phase.entering->onset.time_s));
        last = phase.first;
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    Bytes bytes{data, size};
    MeasureOptions options;
    options.noise_cmH2O = 0.01 * bytes.next();
    options.larger_plateau_cmH2O = 0.5 * bytes.next();
    options.level_u_cmH2O = 0.01 * bytes.next();
    if (const std::uint8_t hz = bytes.next(); hz > 0) {
        options.expected_oscillation_hz = 0.1 * hz;
    }
    const Trace trace = trace_of(bytes);
    const Samples samples{trace.time_s, trace.pressure};
    require_sound(measure(samples, options), samples.size());
    require_same_dwells(samples, {-0.2 * options.larger_plateau_cmH2O, 0.2 * options.larger_plateau_cmH2O});
    LiveRecognition live(options.noise_cmH2O);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        live.push(samples.time_s[i], samples.pressure_cmH2O[i]);
    }
    require(!live.now() || samples.size() > 0);
    return 0;
}
