#pragma once

#include "analysis/signal/edge.hpp"
#include "analysis/signal/oscillation.hpp"
#include "analysis/signal/thinning.hpp"

#include <optional>
#include <vector>

namespace zeroline::signal {

/// The oscillations on both sides of an edge; either may be missing.
struct EdgeOscillations {
    std::optional<SteadyOscillation> before;
    std::optional<SteadyOscillation> after;
    /// The one after may be there at once, or grow with the pressure as the edge rises from one level to the other.
    std::optional<EdgeLevels> grows_between = std::nullopt;
    [[nodiscard]] bool any() const { return before || after; }
    /// What a reading holds of them, where one ends and the other begins at `changeover_s`.
    [[nodiscard]] double in_reading(double time_s, double pressure_cmH2O, double changeover_s) const;
    /// What a reading's noise is multiplied by when in_reading() is taken off it: not 1 where that grows with the
    /// reading itself.
    [[nodiscard]] double noise_left(double time_s, double pressure_cmH2O, double changeover_s) const;

private:
    [[nodiscard]] double whole(double time_s, double changeover_s) const;
    /// How much of the whole is there; none where it is there at once.
    [[nodiscard]] std::optional<double> grown(double time_s, double pressure_cmH2O, double changeover_s) const;
};

/// A copy without an oscillation.
[[nodiscard]] OwnedSamples without_swing(Samples samples, const SteadyOscillation& swing);

/// A copy of an edge's samples without the oscillation of the side left up to `changeover_s`, without the other's
/// after.
[[nodiscard]] OwnedSamples cleared(Samples edge, const EdgeOscillations& swings, double changeover_s);

/// Where one oscillation may end and the other begin. The weights of all that come into question add up to 1.
struct Changeover {
    double time_s = 0.0;
    double weight = 1.0;
};

/// What was found about the oscillations at an edge.
struct Changeovers {
    bool grows = false; ///< the one after grows with the pressure
    std::vector<Changeover> places;
};

/// Up to five changeovers before the middle, in order of time, by how likely the pressure, cleared so, stays at the
/// level left (which may drift) and then runs smoothly, with the oscillation that makes it smoother: there at once, or
/// growing. `last_before` as in find_mid_crossing().
[[nodiscard]] Changeovers changeovers(Samples edge, const EdgeOscillations& swings, EdgeLevels levels,
                                      std::size_t last_before, double noise_cmH2O);

/// The one with as much weight before it as after.
[[nodiscard]] double middle_of(const std::vector<Changeover>& changeovers);

/// One edge, measured with each changeover: the mean, with what they differ by in the uncertainties.
[[nodiscard]] Transition averaged(const std::vector<Transition>& transitions,
                                  const std::vector<Changeover>& changeovers);

} // namespace zeroline::signal
