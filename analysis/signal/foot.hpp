#pragma once

#include "analysis/signal/edge.hpp"
#include "analysis/signal/local_curve.hpp"
#include "analysis/signal/misfit.hpp"

#include <algorithm>
#include <optional>
#include <vector>

namespace zeroline::signal {

/// Samples of an edge as fractions of its step. `mirrored` turns it upside down and back to front: its upper end
/// becomes the foot of an edge that rises from 0 (times change sign).
class EdgeSamples {
public:
    EdgeSamples(Samples samples, EdgeLevels levels) : samples_(samples), levels_(levels) {}

    [[nodiscard]] std::size_t size() const { return samples_.size(); }
    [[nodiscard]] double time(std::size_t i) const { return samples_.time_s[i]; }
    [[nodiscard]] double fraction(std::size_t i) const { return levels_.fraction(samples_.pressure_cmH2O[i]); }
    [[nodiscard]] bool beyond(std::size_t i, double limit) const { return fraction(i) >= limit; }
    /// Mean fraction of the samples up to `reach` away.
    [[nodiscard]] double smoothed(std::size_t i, std::size_t reach) const
    {
        const std::size_t first = i - std::min(i, reach);
        const std::size_t last = std::min(size(), i + reach + 1);
        double sum = 0.0;
        for (std::size_t k = first; k < last; ++k) {
            sum += samples_.pressure_cmH2O[k];
        }
        return levels_.fraction(sum / static_cast<double>(last - first));
    }
    [[nodiscard]] LocalCurve::Point point(std::size_t i, bool mirrored = false) const
    {
        return mirrored ? LocalCurve::Point{-time(i), 1.0 - fraction(i)} : LocalCurve::Point{time(i), fraction(i)};
    }

private:
    Samples samples_;
    EdgeLevels levels_;
};

/// The foot of an edge: the samples from where it leaves the level up to the shoulder.
struct Foot {
    std::vector<LocalCurve::Point> points;   ///< past the corner, in time order
    std::optional<LocalCurve::Point> before; ///< the last sample before them
    double rough_10_s = 0.0;                 ///< straight lines between samples
    double rough_30_s = 0.0;
};

/// `mid`: first sample beyond the middle. `noise`: standard deviation of a fraction.
[[nodiscard]] Foot collect_foot(const EdgeSamples& edge, std::size_t mid, bool mirrored, double noise);

/// 10 % and 30 % points and the onset from a curve through the foot; from straight lines between samples where no curve
/// can be had. Whether the edge leaves the level at a corner or smoothly shows in the sample before the foot: both are
/// tried, and averaged by how well each agrees with it.
[[nodiscard]] FittedFoot fit_foot(const Foot& foot, double edge_s, double interval_s, double noise);

} // namespace zeroline::signal
