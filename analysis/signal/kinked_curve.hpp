#pragma once

#include "analysis/signal/local_curve.hpp"
#include "analysis/signal/misfit.hpp"

#include <span>
#include <vector>

namespace zeroline::signal {

/// A curve through the foot of an edge that may leave the level before it at a corner, or smoothly: where it leaves is
/// not known, all places between two samples are tried and averaged by how well they explain the samples.
///
/// Before that place the level, a slope and a slight bend (droop, a ring that dies away); after it, added, a polynomial
/// of fifth degree whose bends are held by what edges do (see LocalCurve). So the samples before a corner help to place
/// it, those before a smooth foot hold the curve down, and neither bends the edge.
class KinkedCurve {
public:
    /// A point with the number of samples it is the mean of.
    struct Point {
        double time_s = 0.0;
        double fraction = 0.0;
        double weight = 1.0;
    };

    using Onset = FittedFoot;

    /// `points` in time order, from well before the foot to about 70 % of the step; `edge_s`: rough 10-90 % time;
    /// `noise`: standard deviation of a fraction. None below five points, or where no curve crosses both 10 and 30 %.
    [[nodiscard]] static std::optional<Onset> onset(std::span<const Point> points, double edge_s, double noise);
};

/// Neighbouring points averaged, at most `most` groups of equal count.
[[nodiscard]] std::vector<KinkedCurve::Point> grouped(std::span<const LocalCurve::Point> points, std::size_t most);

} // namespace zeroline::signal
