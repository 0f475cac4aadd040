#pragma once

#include "analysis/signal/local_curve.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace zeroline::signal {

/// What a curve through the samples of an edge leaves of them, and what that says of its crossings.
///
/// A curve of few coefficients cannot follow every edge: a ramp with rounded corners, or one behind a lag, bends more
/// suddenly than it does. Then it leaves more of the samples than their noise, and near a crossing the mean of what it
/// leaves tells how far off it is. That mean is taken for as much as it is worth: by the variance beyond the noise in
/// all that is left, against its own (the shrinkage of a normal mean with a normal prior).
class Misfit {
public:
    /// `noise`: standard deviation of one sample, in the unit of what is left.
    explicit Misfit(double noise) : noise_(noise) {}

    /// `at`: the curve's value there; `left`: sample minus curve; `weight`: samples that it is the mean of.
    void add(double at, double left, double weight = 1.0);

    struct Correction {
        double value = 0.0;    ///< to be added to the curve
        double variance = 0.0; ///< of what may still be wrong
    };
    /// For where the curve crosses `at`: samples count the less the farther the curve lies from it there.
    [[nodiscard]] Correction about(double at) const;

private:
    struct Left {
        double at = 0.0;
        double left = 0.0;
        double weight = 1.0;
    };
    [[nodiscard]] double reach_about(double at) const;
    /// Variance beyond the noise in all that is left; 0 where chance may have made it, or where it is so large that
    /// something rings.
    [[nodiscard]] double beyond_noise() const;

    double noise_;
    std::vector<Left> all_;
};

/// What a curve leaves of the samples it was fitted through.
[[nodiscard]] Misfit misfit_of(const LocalCurve& curve, std::span<const LocalCurve::Point> points, double noise);

/// Of the step in a 10-90 % time: an edge that is one rises by 0.4 or more at 10 %.
inline constexpr double kLeastSlope = 0.25;

/// What the curves through the foot of an edge say.
struct FittedFoot {
    double time_10_s = 0.0;
    double time_30_s = 0.0;
    double onset_s = 0.0; ///< by the 10/30 line
    LocalCurve::Spread onset_spread;
    LocalCurve::Spread spread_10;
};

/// Corrects crossings by what the curve that gave them leaves of the samples about them; not where it hardly rises
/// there. Slopes in fractions a second, `edge_s` the rough 10-90 % time.
void correct(FittedFoot& foot, const Misfit& misfit, double slope_10, double slope_30, double edge_s);

} // namespace zeroline::signal
