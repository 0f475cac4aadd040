#pragma once

#include "analysis/signal/phases.hpp"

#include <optional>
#include <vector>

namespace zeroline::signal {

/// What the shape of a stretch of samples shows beside levels and instants. Pure functions of the samples handed in:
/// the caller chooses the stretch (a plateau, a pause, what follows a transition) and judges what comes back. Spikes
/// are left out. Nothing comes back where the stretch is too short or too coarsely sampled
/// to show the thing looked for; what does come back may still be noise: compare `amplitude` with `noise`.

struct Hum {
    double mains_hz = 0.0;   ///< 50 or 60
    double seen_at_hz = 0.0; ///< where the sampling shows it: the same, or its alias
    double amplitude_cmH2O = 0.0;
    double noise_cmH2O = 0.0; ///< standard deviation of what the fit leaves
    double chance = 1.0;      ///< probability that white noise alone would show as much at this frequency
};

/// Mains hum: the stronger of 50 and 60 Hz, also where sampling folds it back (not onto zero or half the rate). None
/// below 0.2 s.
[[nodiscard]] std::optional<Hum> hum(Samples samples);

/// A decaying oscillation after a transition.
struct Ringing {
    double frequency_hz = 0.0;
    double amplitude_cmH2O = 0.0; ///< envelope at the first sample handed in
    double time_constant_s = 0.0; ///< of the envelope
    double noise_cmH2O = 0.0;     ///< standard deviation of what the fit leaves
    double share = 0.0;           ///< of the variance about constant, slope and exponential that the ringing explains
};

/// Looks for a decaying sinusoid between two frequencies in what follows a transition (hand in the samples from its 90
/// % point on, 0.1 s or more). None where the sampling is slower than two and a half samples a period: the band is cut
/// there.
[[nodiscard]] std::optional<Ringing> ringing(Samples after_transition, double low_hz, double high_hz);

/// level + amplitude exp(-(t - first time) / time constant).
struct ExponentialTail {
    double level_cmH2O = 0.0;
    double amplitude_cmH2O = 0.0; ///< at the first sample handed in
    double amplitude_u_cmH2O = 0.0;
    double time_constant_s = 0.0;
    double noise_cmH2O = 0.0; ///< standard deviation of what the fit leaves
    double share = 0.0;       ///< of the variance about the mean that the exponential explains
};

/// Gas trapped at the block, after a release: an exponential of `shortest_s` to `longest_s` (0.5-2 s). None where the
/// stretch is shorter than `shortest_s`, or where no time constant within the bounds fits better than those at the
/// bounds, or where what is there is too little for an amplitude of `least_cmH2O`.
[[nodiscard]] std::optional<ExponentialTail> exponential_tail(Samples after_release, double shortest_s = 0.3,
                                                              double longest_s = 3.0, double least_cmH2O = 0.0);

/// Sample-to-sample noise, from second differences (median of their magnitudes): blind to levels, slopes and spikes.
/// The median interval must hold the noise, not the signal: edges and slow waves do not count, an oscillation near the
/// sampling rate does. 0 below five samples.
[[nodiscard]] double sample_noise(Samples samples);

/// Standard deviation of white noise from the magnitudes of its second differences; 0 where there are none.
[[nodiscard]] double noise_of_bends(std::vector<double> bends_cmH2O);

} // namespace zeroline::signal
