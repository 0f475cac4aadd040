#pragma once

#include "analysis/signal/levels.hpp"
#include "analysis/signal/thinning.hpp"

#include <optional>
#include <span>

namespace zeroline::signal {

/// A steady oscillation superimposed on a phase, fitted over 30-90 % of it.
struct SteadyOscillation {
    double frequency_hz = 0.0;
    double frequency_u_hz = 0.0;
    double sine_cmH2O = 0.0; ///< of 2 pi frequency (time - reference)
    double cosine_cmH2O = 0.0;
    double reference_s = 0.0;
    double constant_cmH2O = 0.0;   ///< fitted beside it
    double constant_u_cmH2O = 0.0; ///< standard uncertainty by the noise, frequency known
    double amplitude_u_cmH2O = 0.0;
    double noise_cmH2O = 0.0; ///< of a sample, by what the fit leaves
    [[nodiscard]] double amplitude_cmH2O() const;
    [[nodiscard]] double at(double time_s) const;
};

/// The samples without the oscillation.
[[nodiscard]] OwnedSamples without_swing(Samples samples, const SteadyOscillation& swing);

/// What an oscillation may be.
inline constexpr double kLowestOscillation_hz = 0.8;
inline constexpr double kHighestOscillation_hz = 22.0;

inline constexpr double kExplains = 0.75;        // of the variance about a line: less is something else
inline constexpr double kAlikeFrequency = 0.1;   // of it: phases that differ by less show the same one
inline constexpr std::size_t kFewestSamples = 8; // in a stretch: three more than what is fitted

/// What is known of an oscillation before it is looked for.
struct OscillationHint {
    double start_hz = 0.0;          ///< another phase shows this frequency: it is tried first; 0: none does
    std::optional<double> known_hz; ///< all phases together have told the frequency ...
    double known_u_hz = 0.0;        ///< ... so well
    bool expected = false;          ///< prescribed: a weak one counts as well
    double noise_cmH2O = 0.0;       ///< of a sample: what moves no more than that needs no closer look
};

/// Looks for a steady oscillation of 1 to 20 Hz between 30 and 90 % of a phase. None where less than half a period lies
/// in it, where it does not stand clear of what it leaves, or where it decays: a ring or a settling edge is none.
[[nodiscard]] std::optional<SteadyOscillation> find_oscillation(Samples samples, Interval phase,
                                                                const OscillationHint& hint);

/// A slow oscillation that all phases of a series share, each at its own turn and strength.
struct SharedOscillation {
    double frequency_hz = 0.0;
    double frequency_u_hz = 0.0; ///< standard uncertainty by the noise
};

/// Looks for one of which a phase holds half a period to two: alone it may pass for a bend or an exponential tail, but
/// those do not fit all phases down to the noise. `stretches` lie between 30 and 90 % of the phases, spikes taken out.
/// None where a bend of third degree in each phase, an exponential or a ring explains them nearly as well; where phases
/// have shown one already (`seen_hz`), it is not doubted and only its frequency found.
[[nodiscard]] std::optional<SharedOscillation> find_shared_oscillation(std::span<const Samples> stretches,
                                                                       double noise_cmH2O,
                                                                       std::optional<double> seen_hz = std::nullopt);

/// Whether an oscillation of that frequency would show: half a period lies between 30 and 90 % of the phase, and the
/// samples follow it.
[[nodiscard]] bool would_show(Samples samples, Interval phase, double frequency_hz);

/// Where the level of a phase with an oscillation is taken: the longest whole number of periods that ends at 90 % and
/// begins at 30 % or later. None where not one period fits: the fitted constant is the level then.
[[nodiscard]] std::optional<Interval> whole_periods(Interval phase, double frequency_hz);

} // namespace zeroline::signal
