#pragma once

#include "analysis/signal/phases.hpp"

#include <cstddef>
#include <optional>

namespace zeroline::signal {

/// The two levels a transition runs between.
struct EdgeLevels {
    double from_cmH2O = 0.0;
    double to_cmH2O = 0.0;
    [[nodiscard]] double step() const noexcept { return to_cmH2O - from_cmH2O; }
    [[nodiscard]] double at(double fraction) const noexcept { return from_cmH2O + fraction * step(); }
    /// How far along the step a pressure lies: 0 at the level left, 1 at the level reached.
    [[nodiscard]] double fraction(double pressure_cmH2O) const noexcept
    {
        return (pressure_cmH2O - from_cmH2O) / step();
    }
};

/// The first sustained 50 % crossing: 20 ms and 3 samples beyond the middle.
struct MidCrossing {
    std::size_t after = 0; ///< first sample beyond
    double time_s = 0.0;   ///< interpolated
};

/// Looks between the last sample that surely lies before the edge and the first that surely lies after it, and beyond
/// both where the middle is not between them. `earliest` and `latest` bound the search. None where the samples do not
/// cross the middle for long enough.
[[nodiscard]] std::optional<MidCrossing> find_mid_crossing(Samples samples, EdgeLevels levels, std::size_t last_before,
                                                           std::size_t first_after, std::size_t earliest,
                                                           std::size_t latest);

/// Onset by the interpolated 10 % and 30 % points, nothing fitted: good enough to place windows.
[[nodiscard]] double plain_onset_s(Samples samples, EdgeLevels levels, MidCrossing mid, std::size_t earliest);

/// The whole transition: onset, middle and 10-90 % time, each from a local fit where the edge holds enough samples.
[[nodiscard]] Transition measure_transition(Samples samples, EdgeLevels levels, MidCrossing mid, std::size_t earliest,
                                            std::size_t latest, double noise_cmH2O);

} // namespace zeroline::signal
