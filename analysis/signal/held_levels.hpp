#pragma once

#include "analysis/signal/phases.hpp"

namespace zeroline::signal {

/// Between the medians of three that tell what is held: ten in the shortest dwell.
inline constexpr double kProbe_s = 0.02;

/// What has to be known of a stretch before phases can be told from pauses in it.
struct HeldLevels {
    double larger_plateau_cmH2O = 0.0; ///< magnitude; 0 where nothing dwells
    double rest_cmH2O = 0.0;           ///< level that the pauses dwell at
};

/// One look ahead, over one median of three every 20 ms. `pause_level_cmH2O` is the prescribed one, taken where no rest
/// shows.
[[nodiscard]] HeldLevels held_levels(Samples samples, double pause_level_cmH2O, double noise_cmH2O);

/// How far from the rest a dwell must lie to be a phase: max(10 x noise, 20 % of the larger plateau). Noise that would
/// swallow plateaus which stand clear of it (hum, oscillation) counts up to 40 % of the larger plateau.
[[nodiscard]] double phase_threshold(double noise_cmH2O, double larger_plateau_cmH2O) noexcept;

[[nodiscard]] double median_of_three(double a, double b, double c) noexcept;

} // namespace zeroline::signal
