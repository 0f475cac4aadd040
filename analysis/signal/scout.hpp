#pragma once

#include "analysis/signal/phases.hpp"

namespace zeroline::signal {

/// What has to be known of a stretch before phases can be told from pauses in it.
struct Scouted {
    double larger_plateau_cmH2O = 0.0; ///< magnitude; 0 where nothing dwells
    double rest_cmH2O = 0.0;           ///< level that the pauses dwell at
    double noise_cmH2O = 0.0;          ///< from the samples
};

/// One look ahead, over a few thinned-out samples. `pause_level_cmH2O` is the prescribed one, taken where no rest
/// shows.
[[nodiscard]] Scouted scout(Samples samples, double pause_level_cmH2O);

/// How far from the rest a dwell must lie to be a phase: max(10 x noise, 20 % of the larger plateau). Noise that would
/// swallow plateaus which stand clear of it (hum, oscillation) counts up to 40 % of the larger plateau.
[[nodiscard]] double phase_threshold(double noise_cmH2O, double larger_plateau_cmH2O) noexcept;

} // namespace zeroline::signal
