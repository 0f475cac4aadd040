#pragma once

#include "analysis/signal/edge.hpp"
#include "analysis/signal/oscillation.hpp"
#include "analysis/signal/thinning.hpp"

namespace zeroline::signal {

/// The oscillations on both sides of an edge; either may be missing.
struct EdgeOscillations {
    std::optional<SteadyOscillation> before;
    std::optional<SteadyOscillation> after;
    [[nodiscard]] bool any() const { return before || after; }
};

/// A copy without an oscillation.
[[nodiscard]] OwnedSamples without_swing(Samples samples, const SteadyOscillation& swing);

/// A copy of an edge's samples without the oscillation of the side left up to `changeover_s`, without the other's
/// after.
[[nodiscard]] OwnedSamples cleared(Samples edge, const EdgeOscillations& swings, double changeover_s);

/// Where one oscillation ends and the other begins: the time before the middle for which, cleared so, the pressure is
/// most likely to stay at the level left until then and to run smoothly afterwards. `last_before` as in
/// find_mid_crossing().
[[nodiscard]] double changeover_time(Samples edge, const EdgeOscillations& swings, EdgeLevels levels,
                                     std::size_t last_before, double noise_cmH2O);

} // namespace zeroline::signal
