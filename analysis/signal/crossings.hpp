#pragma once

#include "analysis/signal/oscillation.hpp"
#include "analysis/signal/phases.hpp"

#include <cstddef>
#include <optional>

namespace zeroline::signal {

/// What lasts no longer is a ring of the sensing line: no stay beyond a middle, no exit from a band.
inline constexpr double kSustained_s = 0.02;

/// The two levels that an edge runs between, with the noise of each.
struct EdgeLevels {
    double from_cmH2O = 0.0;
    double to_cmH2O = 0.0;
    double from_u_cmH2O = 0.0;
    double to_u_cmH2O = 0.0;
    [[nodiscard]] double step() const noexcept { return to_cmH2O - from_cmH2O; }
};

/// The samples about an edge, read as fractions of its step: 0 at the level left, 1 at the level reached.
class Edge {
public:
    Edge(Samples samples, EdgeLevels levels, double noise_cmH2O);
    /// From now on without what swings in the phases on both sides, before and after a time. Null: nothing swings
    /// there. The oscillations must outlive the edge.
    void take_off(const SteadyOscillation* before, const SteadyOscillation* after, double changeover_s) noexcept;

    [[nodiscard]] std::size_t size() const noexcept { return samples_.size(); }
    [[nodiscard]] double time(std::size_t i) const { return samples_.time_s[i]; }
    [[nodiscard]] double fraction(std::size_t i) const
    {
        const double still = samples_.pressure_cmH2O[i] - (swings_ ? swing_at(time(i)) : 0.0);
        return (still - levels_.from_cmH2O) * per_step_;
    }
    [[nodiscard]] double noise() const noexcept { return noise_; } ///< of a sample, as a fraction
    [[nodiscard]] const EdgeLevels& levels() const noexcept { return levels_; }

private:
    [[nodiscard]] double swing_at(double time_s) const;

    Samples samples_;
    EdgeLevels levels_;
    double per_step_ = 0.0;
    double noise_ = 0.0;
    bool swings_ = false;
    const SteadyOscillation* before_ = nullptr;
    const SteadyOscillation* after_ = nullptr;
    double changeover_s_ = 0.0;
};

/// When a level is crossed.
struct Crossing {
    double time_s = 0.0;
    double noise_u_s = 0.0;    ///< standard uncertainty: noise over slope
    double half_width_s = 0.0; ///< how far the edge may bend between and beside the samples that were used
    double slope_per_s = 0.0;  ///< of the fraction
};

/// Where the straight line between samples `after - 1` and `after` reaches a fraction. Where noise over slope decides
/// which neighbours those are, where a straight line through as many samples reaches it as lie on one smooth piece.
[[nodiscard]] Crossing crossing_at(const Edge& edge, std::size_t after, double fraction);

/// First sample of the first sustained stay (20 ms, 3 samples) beyond the middle after the last one before it; looked
/// for from sample `last_before`, which surely lies before the edge. None where the middle is not crossed for that
/// long.
[[nodiscard]] std::optional<std::size_t> sustained_middle(const Edge& edge, std::size_t last_before);

/// Onset by the 10/30 line; `middle` from sustained_middle().
[[nodiscard]] double onset_of(const Edge& edge, std::size_t middle);

/// Onset, middle and 10-90 % time with their uncertainties.
[[nodiscard]] Transition transition_at(const Edge& edge, std::size_t middle);

/// A reading with the difference from another, as honest one in its uncertainty: the half-width of a rectangle.
[[nodiscard]] Transition widened(const Transition& reading, const Transition& other);

} // namespace zeroline::signal
