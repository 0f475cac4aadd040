// The levels of a pipeline's phases, with what oscillates in them and beside them taken off.

#include "analysis/signal/pipeline.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace zeroline::signal {
namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();

} // namespace

OwnedSamples Pipeline::still_around(std::size_t k, const SampleBuffer& buffer) const
{
    const Samples samples = around(k, buffer);
    OwnedSamples still{{samples.time_s.begin(), samples.time_s.end()},
                       {samples.pressure_cmH2O.begin(), samples.pressure_cmH2O.end()}};
    const auto edge_into = [&](std::size_t j) {
        const bool begins = j == 0;
        const bool ends = j == nodes_.size();
        return EdgeOscillations{begins ? std::nullopt : nodes_[j - 1].oscillation,
                                ends ? std::nullopt : nodes_[j].oscillation,
                                ends ? std::nullopt : nodes_[j].grows_between};
    };
    const EdgeOscillations begin = edge_into(k);
    const EdgeOscillations end = edge_into(k + 1);
    const double begin_s = k > 0 ? nodes_[k].changeover_s.value_or(-kFar) : -kFar;
    const double end_s = k + 1 < nodes_.size() ? nodes_[k + 1].changeover_s.value_or(kFar) : kFar;
    for (std::size_t i = 0; i < still.size(); ++i) {
        double& pressure = still.pressure_cmH2O[i];
        const double time = still.time_s[i];
        pressure -= time < end_s ? begin.in_reading(time, pressure, begin_s) : end.in_reading(time, pressure, end_s);
    }
    return still;
}

// The level of a phase, by the rules for one with an oscillation where it has one (docs/method.md).
std::optional<WindowFit> Pipeline::level_of(std::size_t k, Interval phase, const SampleBuffer& buffer) const
{
    const Node& node = nodes_[k];
    if (!beside_oscillation(k)) {
        const Interval window = level_interval(node.kind, phase);
        return fit_window(around(k, buffer), window.from_s, window.to_s, options_.noise_cmH2O);
    }
    const OwnedSamples still = still_around(k, buffer);
    if (!node.oscillation) {
        const Interval window = level_interval(node.kind, phase);
        return fit_window(still.view(), window.from_s, window.to_s, options_.noise_cmH2O);
    }
    const auto whole = whole_periods(phase, node.oscillation->frequency_hz);
    const Interval window = whole.value_or(phase.part(0.3, 0.9));
    auto fit = fit_window(still.view(), window.from_s, window.to_s, options_.noise_cmH2O);
    // Whether it has settled, and droop, show where they show without an oscillation.
    const Interval plateau = level_interval(node.kind, phase);
    if (const auto line = fit_window(still.view(), plateau.from_s, plateau.to_s, options_.noise_cmH2O); fit && line) {
        fit->slope_cmH2O_per_s = line->slope_cmH2O_per_s;
    }
    if (fit && !whole) {
        fit->level.value_cmH2O = node.oscillation->constant_cmH2O;
        fit->slope_cmH2O_per_s = 0.0;
    }
    if (fit) {
        fit->level.noise_u_cmH2O = std::max(fit->level.noise_u_cmH2O, node.oscillation->constant_u_cmH2O);
    }
    return fit;
}

void Pipeline::look_for_oscillation(std::size_t k, Interval phase, const SampleBuffer& buffer)
{
    const OscillationHint hint{options_.oscillation_hz, options_.oscillation_u_hz,
                               options_.expected_oscillation_hz.has_value(), options_.fewest_oscillation_periods};
    nodes_[k].oscillation = find_oscillation(around(k, buffer), phase, hint);
}

} // namespace zeroline::signal
