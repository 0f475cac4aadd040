#include "acquisition/trace/wander.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace zeroline::trace {

namespace {

/// A symmetric positive definite system with two diagonals beside the main one.
class BandedSystem {
public:
    explicit BandedSystem(std::size_t size) : rows_(size, {0.0, 0.0, 0.0}), right_(size, 0.0) {}

    /// Adds weight * (c . y - target)^2 for coefficients of neighbouring unknowns from `first` on.
    template <std::size_t N> void add(std::size_t first, const std::array<double, N>& c, double target, double weight)
    {
        for (std::size_t i = 0; i < N; ++i) {
            for (std::size_t j = i; j < N; ++j) {
                rows_[first + i][j - i] += weight * c[i] * c[j];
            }
            right_[first + i] += weight * c[i] * target;
        }
    }

    /// Cholesky's method in its form without square roots.
    std::vector<double> solve()
    {
        const std::size_t n = rows_.size();
        for (std::size_t i = 0; i < n; ++i) {
            const double pivot = rows_[i][0];
            for (std::size_t k = 1; k <= 2 && i + k < n; ++k) {
                const double share = rows_[i][k] / pivot;
                for (std::size_t m = k; m <= 2; ++m) {
                    rows_[i + k][m - k] -= share * rows_[i][m];
                }
                right_[i + k] -= share * right_[i];
            }
        }
        for (std::size_t i = n; i-- > 0;) {
            for (std::size_t k = 1; k <= 2 && i + k < n; ++k) {
                right_[i] -= rows_[i][k] * right_[i + k];
            }
            right_[i] /= rows_[i][0];
        }
        return right_;
    }

private:
    std::vector<std::array<double, 3>> rows_;
    std::vector<double> right_;
};

struct Place {
    std::size_t piece;
    double share;
};

Place place_of(const SmoothCurve& curve, double x) noexcept
{
    const double along = (x - curve.begin) / curve.step;
    const double last = static_cast<double>(curve.values.size() - 2);
    const double piece = std::clamp(std::floor(along), 0.0, last);
    return {static_cast<std::size_t>(piece), along - piece};
}

std::vector<double> solve_once(std::span<const StampPoint> points, const SmoothCurve& curve,
                               std::span<const double> weights, double stiffness)
{
    BandedSystem system(curve.values.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        const auto place = place_of(curve, points[i].index);
        system.add<2>(place.piece, {1.0 - place.share, place.share}, points[i].stamp_s, weights[i]);
    }
    for (std::size_t i = 0; i + 2 < curve.values.size(); ++i) {
        system.add<3>(i, {1.0, -2.0, 1.0}, 0.0, stiffness);
    }
    return system.solve();
}

} // namespace

double SmoothCurve::at(double x) const noexcept
{
    const auto place = place_of(*this, x);
    return values[place.piece] + place.share * (values[place.piece + 1] - values[place.piece]);
}

SmoothCurve smooth(std::span<const StampPoint> points, std::size_t pieces, double scatter_s, double bend)
{
    constexpr int rounds = 5;
    constexpr double far = 3.0;
    SmoothCurve curve;
    curve.begin = points.front().index;
    curve.step = (points.back().index - points.front().index) / static_cast<double>(pieces);
    curve.values.assign(pieces + 1, 0.0);
    const double stiffness = std::pow(scatter_s / (bend * curve.step), 2.0);
    std::vector<double> weights(points.size(), 1.0);
    for (int round = 0; round < rounds; ++round) {
        curve.values = solve_once(points, curve, weights, stiffness);
        for (std::size_t i = 0; i < points.size(); ++i) {
            const double off_s = std::fabs(points[i].stamp_s - curve.at(points[i].index));
            weights[i] = off_s <= far * scatter_s ? 1.0 : far * scatter_s / off_s;
        }
    }
    return curve;
}

} // namespace zeroline::trace
