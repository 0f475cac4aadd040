#pragma once

#include "analysis/signal/phases.hpp"

#include <optional>
#include <vector>

namespace zeroline::signal {

/// What the shape of a stretch of samples shows beside levels and instants. Pure functions of the samples handed in:
/// the caller chooses the stretch (a plateau, a pause, what follows a transition) and judges what comes back. Spikes
/// are left out by a running median of three. Nothing comes back where the stretch is too short or too coarsely sampled
/// to show the thing looked for; what does come back may still be noise: compare `amplitude` with `noise`.

/// One frequency, fitted by least squares with a constant (and a slope where said).
struct SpectralLine {
    double frequency_hz = 0.0;
    double amplitude_cmH2O = 0.0;   ///< zero to peak
    double phase_rad = 0.0;         ///< of the sine, at the first sample's time
    double constant_cmH2O = 0.0;    ///< fitted beside it, at the middle of the stretch
    double slope_cmH2O_per_s = 0.0; ///< fitted beside it; 0 where none was
    double noise_cmH2O = 0.0;       ///< standard deviation of what the fit leaves
    double share = 0.0;  ///< of the variance about the line (constant, slope) that the sinusoid explains, 0..1
    double chance = 1.0; ///< probability that white noise alone would show such a line somewhere in the band
    [[nodiscard]] double at(double time_s, double first_time_s) const; ///< sinusoid alone
};

/// Least squares of constant, slope and sinusoid at a given frequency. None below six samples.
[[nodiscard]] std::optional<SpectralLine> fit_line_at(Samples samples, double frequency_hz);

/// The strongest narrow-band component between two frequencies, by periodogram and refinement. None where less than one
/// period of `low_hz` is seen, or `low_hz` lies above 0.45 of the sampling rate (the band is cut there).
/// `least_share`: none either where it is clear from afar that no line explains so much.
[[nodiscard]] std::optional<SpectralLine> strongest_line(Samples samples, double low_hz, double high_hz,
                                                         double least_share = 0.0);

struct Hum {
    double mains_hz = 0.0;   ///< 50 or 60
    double seen_at_hz = 0.0; ///< where the sampling shows it: the same, or its alias
    double amplitude_cmH2O = 0.0;
    double noise_cmH2O = 0.0;
    double chance = 1.0;
};

/// Mains hum: the stronger of 50 and 60 Hz, also where sampling folds it back (not onto zero or half the rate). None
/// below 0.2 s.
[[nodiscard]] std::optional<Hum> hum(Samples samples);

/// Variation in a band of frequencies, narrow or not.
struct BandVariation {
    double rms_cmH2O = 0.0;
    double peak_to_peak_cmH2O = 0.0; ///< of the samples smoothed to the band
    double dominant_hz = 0.0;        ///< strongest frequency within the band
    double dominant_share = 0.0;     ///< of the band's power: near 1 is one steady frequency, less is irregular
    double noise_cmH2O = 0.0;        ///< sample-to-sample noise of the stretch
};

/// Irregular 0.5-3 Hz about the straight line through a plateau: a hand that serves as plug. None below 1 s.
[[nodiscard]] std::optional<BandVariation> wobble(Samples samples);

/// Swings of 0.1-1 Hz in a pause or at the open port: somebody breathes. None below 1.5 s. An exponential settling has
/// to be cut off by the caller (begin at the end of trapped gas, or hand in what is left of it).
[[nodiscard]] std::optional<BandVariation> breathing_swings(Samples samples);

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
