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

/// Looks from the last sample that surely lies before the edge: back to the last sustained stay before the middle, then
/// on to the first sustained stay beyond it. Where the noise exceeds what the pressure does between two samples, the
/// time comes from a curve through the edge. None where the samples do not cross the middle for long enough.
[[nodiscard]] std::optional<MidCrossing> find_mid_crossing(Samples samples, EdgeLevels levels, std::size_t last_before,
                                                           double noise_cmH2O);

/// Onset by the 10 % and 30 % points, from a local fit where the edge holds enough samples.
[[nodiscard]] double onset_of(Samples samples, EdgeLevels levels, MidCrossing mid, double noise_cmH2O);

/// The whole transition: onset, middle and 10-90 % time, each from a local fit where the edge holds enough samples.
/// `samples`: from well within the level left to well within the level reached.
[[nodiscard]] Transition measure_transition(Samples samples, EdgeLevels levels, MidCrossing mid, double noise_cmH2O);

} // namespace zeroline::signal
