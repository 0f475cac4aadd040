#include "analysis/signal/phases.hpp"

#include "tests/analysis/signal/analytic.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <functional>

// One algorithm, live and afterwards: how samples were cut into blocks changes nothing, to the last bit.

namespace zeroline::signal {
namespace {

using analytic::CycleForm;
using analytic::Shape;

void put(std::vector<std::uint64_t>& bits, double value)
{
    std::uint64_t word = 0;
    std::memcpy(&word, &value, sizeof word);
    bits.push_back(word);
}

void put(std::vector<std::uint64_t>& bits, const std::optional<double>& value)
{
    bits.push_back(value.has_value());
    put(bits, value.value_or(0.0));
}

void put(std::vector<std::uint64_t>& bits, const Instant& instant)
{
    for (const double value : {instant.time_s, instant.noise_u_s, instant.sampling_u_s, instant.dof}) {
        put(bits, value);
    }
}

void put(std::vector<std::uint64_t>& bits, const std::optional<Transition>& edge)
{
    bits.push_back(edge.has_value());
    if (!edge) {
        return;
    }
    put(bits, edge->from_cmH2O);
    put(bits, edge->to_cmH2O);
    put(bits, edge->onset);
    put(bits, edge->mid);
    put(bits, edge->time_10_90_s);
    put(bits, edge->time_10_90_u_s);
    bits.push_back(edge->samples_10_90);
    bits.push_back(edge->reached);
}

std::vector<std::uint64_t> bits_of(const std::vector<Phase>& phases)
{
    std::vector<std::uint64_t> bits;
    for (const Phase& phase : phases) {
        for (const std::size_t number :
             {static_cast<std::size_t>(phase.kind), phase.first, phase.last, phase.spikes,
              static_cast<std::size_t>(phase.cut_begin), static_cast<std::size_t>(phase.cut_end),
              static_cast<std::size_t>(phase.returned), static_cast<std::size_t>(phase.settled)}) {
            bits.push_back(number);
        }
        put(bits, phase.entering);
        put(bits, phase.leaving);
        const Level level = phase.plateau.value_or(Level{});
        for (const double value : {level.value_cmH2O, level.noise_u_cmH2O, level.noise_dof, level.position_u_cmH2O,
                                   level.window_from_s, level.window_to_s, phase.first_time_s, phase.last_time_s,
                                   phase.return_slope_cmH2O_per_s, phase.next_entry_s}) {
            put(bits, value);
        }
        for (const auto& value :
             {phase.peak_cmH2O, phase.overshoot_percent, phase.droop_cmH2O_per_s, phase.ripple_cmH2O}) {
            put(bits, value);
        }
        const Oscillation oscillation = phase.oscillation.value_or(Oscillation{-1.0, 0.0});
        for (const double value : {oscillation.frequency_hz, oscillation.amplitude_cmH2O, oscillation.frequency_u_hz,
                                   oscillation.amplitude_u_cmH2O}) {
            put(bits, value);
        }
        put(bits, phase.return_to_band.value_or(Instant{}));
    }
    return bits;
}

std::vector<std::uint64_t> streamed(Samples samples, const MeasureOptions& options,
                                    const std::function<std::size_t()>& next_block)
{
    PhaseStream stream(options);
    std::vector<Phase> phases;
    for (std::size_t first = 0; first < samples.size();) {
        const std::size_t last = std::min(samples.size(), first + next_block());
        stream.push(samples.part(first, last));
        for (Phase& phase : stream.take()) {
            phases.push_back(std::move(phase));
        }
        first = last;
    }
    stream.finish();
    for (Phase& phase : stream.take()) {
        phases.push_back(std::move(phase));
    }
    EXPECT_GT(phases.size(), 5U);
    return bits_of(phases);
}

struct Troubled {
    const char* what;
    CycleForm form;
    double rate_hz;
    analytic::Trouble trouble;
};

std::vector<Troubled> troubles()
{
    std::vector<Troubled> all;
    for (const double rate : {100.0, 250.0, 1000.0}) {
        all.push_back({"plain", {}, rate, {}});
        all.push_back({"60 spikes", {}, rate, {}});
        all.back().trouble.spikes = 60;
        all.push_back({"no pause, spikes", {}, rate, {}});
        all.back().form.pause_s = 0.0;
        all.back().trouble.spikes = 30;
        all.push_back({"oscillation", {}, rate, {}});
        all.back().form.oscillation_hz = 7.0;
        all.back().form.oscillation_cmH2O = 5.0;
        all.push_back({"ringing", {}, rate, {}});
        all.back().form.form = {Shape::second_order, 0.3, 0.4};
    }
    return all;
}

TEST(Blocks, CuttingIntoBlocksChangesNothingToTheLastBit)
{
    for (const Troubled& one : troubles()) {
        std::mt19937_64 random(17);
        const auto trace = analytic::sampled(analytic::cycling(one.form), one.rate_hz, one.trouble, random);
        for (const double larger_plateau : {0.0, 40.0}) { // 0: live, nothing known beforehand
            MeasureOptions options;
            options.larger_plateau_cmH2O = larger_plateau;
            options.noise_cmH2O = larger_plateau > 0.0 ? 0.1 : 0.0;
            const auto whole = streamed(trace.samples(), options, [&] { return trace.time_s.size(); });
            std::uniform_int_distribution<std::size_t> length(1, 700);
            for (const std::size_t block : {1U, 7U, 64U, 4096U}) {
                EXPECT_EQ(streamed(trace.samples(), options, [&] { return block; }), whole)
                    << one.what << " at " << one.rate_hz << " Hz, blocks of " << block;
            }
            EXPECT_EQ(streamed(trace.samples(), options, [&] { return length(random); }), whole)
                << one.what << " at " << one.rate_hz << " Hz, blocks of any length";
        }
    }
}

} // namespace
} // namespace zeroline::signal
