// What is told of a phase once its levels and edges are known.

#include "analysis/signal/measurement.hpp"
#include "analysis/signal/return_to_band.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::signal {
namespace {

constexpr double kSettled = 0.05; // of the step, over the plateau window
constexpr double kCovered = 2.0;  // standard uncertainties: how early an onset may be
constexpr double kBeside = 0.7;   // of the difference of two readings: both may swing along

// The peak with the oscillation taken off. Where the phase begins it may not swing yet, or not so: no sample counts for
// more than it showed.
std::optional<double> still_peak_of(Samples samples, Interval phase, int sign, const SteadyOscillation& swing)
{
    const SampleWindow bounds = samples_between(samples, phase.from_s, phase.to_s);
    const Samples own = samples.part(bounds.first, bounds.last);
    OwnedSamples still = without_swing(own, swing);
    const auto steady_blocks = blocks_of(still.pressure_cmH2O);
    const auto steady = peak_of(still.view(), steady_blocks, phase.part(0.3, 1.0), sign);
    for (std::size_t i = 0; i < still.size(); ++i) {
        double& value = still.pressure_cmH2O[i];
        value = sign > 0 ? std::min(value, own.pressure_cmH2O[i]) : std::max(value, own.pressure_cmH2O[i]);
    }
    const auto lower = peak_of(still.view(), blocks_of(still.pressure_cmH2O), phase, sign);
    return lower && steady ? sign * std::max(sign * *lower, sign * *steady) : lower;
}

double u_of(const std::optional<Transition>& edge)
{
    return edge ? std::hypot(edge->onset.noise_u_s, edge->onset.sampling_u_s) : 0.0;
}

} // namespace

std::vector<Phase> Measurement::phases() const
{
    std::vector<Phase> phases;
    phases.reserve(stays_.size());
    std::size_t begun = 0;
    std::size_t spike = 0;
    for (std::size_t k = 0; k < stays_.size(); ++k) {
        Phase phase = phase_of(k);
        // Where both middles fell on one sample, or changed places, it still begins no earlier than the phase before.
        phase.first = std::max(phase.first, begun);
        phase.last = std::max(phase.last, phase.first + 1);
        begun = phase.first;
        phase.first_time_s = samples_.time_s[phase.first];
        phase.last_time_s = samples_.time_s[phase.last - 1];
        phase.first = clear_.number_given(phase.first);
        phase.last = clear_.number_given(phase.last - 1) + 1;
        for (; spike < clear_.spikes().size() && clear_.spikes()[spike] < phase.last; ++spike) {
            phase.spikes += static_cast<std::size_t>(clear_.spikes()[spike] >= phase.first);
        }
        phases.push_back(std::move(phase));
    }
    return phases;
}

Phase Measurement::phase_of(std::size_t k) const
{
    const Stay& stay = stays_[k];
    const Stay* next = k + 1 < stays_.size() ? &stays_[k + 1] : nullptr;
    Phase phase;
    phase.kind = stay.kind;
    phase.entering = stay.entering;
    phase.leaving = next != nullptr ? next->entering : std::nullopt;
    phase.cut_begin = !phase.entering;
    phase.cut_end = !phase.leaving;
    phase.first = stay.middle > 0 ? stay.middle : stay.dwell.first;
    phase.last = next != nullptr && next->middle > 0 ? next->middle : stay.dwell.last;
    describe_level(phase, k);
    describe_peak(phase, k);
    describe_return(phase);
    if (phase.entering) {
        phase.entering->reached = phase.settled;
    }
    if (phase.leaving) {
        phase.leaving->reached = settled(k + 1, phase.leaving->from_cmH2O);
    }
    return phase;
}

bool Measurement::settled(std::size_t k, double left_cmH2O) const
{
    const WindowFit& fit = *stays_[k].fit;
    const double moved = std::abs(fit.slope_cmH2O_per_s) * level_interval(stays_[k].kind, between_onsets(k)).length_s();
    return moved <= kSettled * std::abs(fit.level.value_cmH2O - left_cmH2O);
}

void Measurement::describe_level(Phase& phase, std::size_t k) const
{
    const auto& fit = stays_[k].fit;
    if (!fit) {
        return;
    }
    phase.plateau = fit->level;
    phase.ripple_cmH2O = fit->ripple_cmH2O;
    const double slope = fit->slope_cmH2O_per_s;
    phase.droop_cmH2O_per_s = fit->level.value_cmH2O >= 0.0 ? -slope : slope;
    phase.settled = settled(k, phase.entering ? phase.entering->from_cmH2O : options_.rest_cmH2O.value_or(0.0));
    // The window lies 0.7 of the phase behind its beginning and 0.3 before its end, in its middle.
    phase.plateau->position_u_cmH2O =
        std::abs(slope) * std::hypot(0.3 * u_of(phase.entering), 0.7 * u_of(phase.leaving));
    if (phase.kind == PhaseKind::pause && phase.leaving && stays_[k + 1].oscillation) {
        // The phase after it may swing already before its onset: the difference from a pause that ends before that.
        const Interval interval = between_onsets(k);
        const double before_s =
            std::max(kCovered * u_of(phase.leaving), kBeforeOnset * phase.leaving->time_10_90_s.value_or(0.0));
        const Interval window = level_interval(phase.kind, {interval.from_s, interval.to_s - before_s});
        const double apart = fit->level.value_cmH2O - window_mean(around(k), window.from_s, window.to_s);
        phase.plateau->position_u_cmH2O = std::hypot(phase.plateau->position_u_cmH2O, kBeside * apart);
    }
}

void Measurement::describe_peak(Phase& phase, std::size_t k) const
{
    const Stay& stay = stays_[k];
    if (phase.kind == PhaseKind::pause || !stay.fit) {
        return;
    }
    const Interval interval = between_onsets(k);
    const int sign = phase.kind == PhaseKind::insufflation ? 1 : -1;
    phase.peak_cmH2O = peak_of(samples_, clear_.blocks(), interval, sign);
    std::optional<double> still_peak = phase.peak_cmH2O;
    if (stay.oscillation) {
        phase.oscillation = Oscillation{stay.oscillation->frequency_hz, stay.oscillation->amplitude_cmH2O(),
                                        stay.oscillation->frequency_u_hz, stay.oscillation->amplitude_u_cmH2O};
        still_peak = still_peak_of(around(k), interval, sign, *stay.oscillation);
    } else if (options_.expected_oscillation_hz && !phase.cut() &&
               would_show(around(k), interval, *options_.expected_oscillation_hz)) {
        phase.oscillation = Oscillation{};
    }
    const double value = stay.fit->level.value_cmH2O;
    if (still_peak && phase.entering && value != phase.entering->from_cmH2O) {
        phase.overshoot_percent = 100.0 * (*still_peak - value) / (value - phase.entering->from_cmH2O);
    }
}

void Measurement::describe_return(Phase& phase) const
{
    if (phase.kind != PhaseKind::pause || phase.cut()) {
        return;
    }
    const Band band{options_.pause_level_cmH2O, options_.zero_band_cmH2O, options_.level_u_cmH2O};
    const Interval pause{phase.entering->onset.time_s, phase.leaving->onset.time_s};
    // An onset that may be earlier is none the less the end of the pause.
    const double next_edge_s = phase.leaving->time_10_90_s.value_or(0.0) + 4.0 * kCovered * u_of(phase.leaving);
    const ReturnToBand found =
        return_to_band(samples_, clear_.blocks(), pause, band, next_edge_s, options_.noise_cmH2O);
    phase.returned = found.returned;
    phase.next_entry_s = found.next_entry_s;
    if (found.returned) {
        phase.return_to_band = found.entry;
        phase.return_slope_cmH2O_per_s = found.slope_cmH2O_per_s;
    }
}

} // namespace zeroline::signal
