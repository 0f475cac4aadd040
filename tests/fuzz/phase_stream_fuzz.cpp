#include "analysis/signal/phases.hpp"
#include "tests/fuzz/input_bytes.hpp"

#include <cmath>
#include <cstdint>
#include <vector>

// The streaming analyser on any samples: 4 bytes of options, then 3 bytes a sample (a time step, a pressure). However
// they are cut into blocks the phases are the same and stand in order.

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

std::vector<Phase> streamed(const Trace& trace, const MeasureOptions& options, std::size_t block)
{
    PhaseStream stream(options);
    const Samples samples{trace.time_s, trace.pressure};
    for (std::size_t first = 0; first < samples.size(); first += block) {
        stream.push(samples.part(first, std::min(samples.size(), first + block)));
    }
    stream.finish();
    return stream.take();
}

bool same(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

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
    const auto whole = streamed(trace, options, trace.time_s.size() + 1);
    const auto cut = streamed(trace, options, 7);
    require_sound(whole, trace.time_s.size());
    require(whole.size() == cut.size());
    for (std::size_t k = 0; k < whole.size(); ++k) {
        require(same(whole[k].start_s(), cut[k].start_s()) && whole[k].kind == cut[k].kind);
        require(whole[k].plateau.has_value() == cut[k].plateau.has_value());
        require(!whole[k].plateau || same(whole[k].plateau->value_cmH2O, cut[k].plateau->value_cmH2O));
    }
    require_sound(measure({trace.time_s, trace.pressure}, options), trace.time_s.size());
    return 0;
}
