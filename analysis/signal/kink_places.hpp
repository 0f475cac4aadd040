#pragma once

#include "analysis/signal/kinked_curve.hpp"
#include "analysis/signal/small_matrix.hpp"

#include <array>
#include <limits>
#include <span>
#include <vector>

/// Where the foot of an edge may have its kink, and how well each place explains the samples: what KinkedCurve averages
/// over.
namespace zeroline::signal::kink {

/// Before the kink: level, slope, bend. From it on, added: a jump (where between two points the kink lies is not
/// known), slope and bends.
inline constexpr std::size_t kBase = 3;
inline constexpr std::size_t kSize = kBase + 6;
using Vector = SmallVector<kSize>;
using Matrix = SmallMatrix<kSize>;

/// What an edge may be, before its samples are looked at.
struct Supposed {
    double level = 1.0; ///< share of the deviations before the kink
    double slope = 3.0; ///< standard deviation of the slope at the kink
    double bends = 1.0; ///< share of those of the bends
};
inline constexpr double kSlope = 3.0;
inline constexpr std::array<Supposed, 8> kSupposed{{{1.0, kSlope, 0.12},
                                                    {1.0, kSlope, 0.4},
                                                    {1.0, kSlope, 1.3},
                                                    {1.0, 0.03, 0.5},
                                                    {1.0, 0.03, 4.0},
                                                    {0.05, kSlope, 0.4},
                                                    {0.05, 0.03, 0.5},
                                                    {0.05, 0.03, 4.0}}};

/// The points in units of the edge, and what is common to all curves through them.
class Edge {
public:
    Edge(std::span<const KinkedCurve::Point> points, double edge_s, double noise)
        : origin_s_(points.back().time_s), edge_s_(edge_s)
    {
        for (const auto& point : points) {
            x_.push_back((point.time_s - origin_s_) / edge_s);
            y_.push_back(point.fraction);
            weight_.push_back(point.weight / (noise * noise));
        }
    }

    [[nodiscard]] std::size_t size() const { return x_.size(); }
    [[nodiscard]] double x(std::size_t i) const { return x_[i]; }
    [[nodiscard]] double y(std::size_t i) const { return y_[i]; }
    [[nodiscard]] double weight(std::size_t i) const { return weight_[i]; }
    [[nodiscard]] double time_at(double x) const { return origin_s_ + x * edge_s_; }
    [[nodiscard]] double edge_s() const { return edge_s_; }
    /// The middle between points `after` - 1 and `after`.
    [[nodiscard]] double kink_before(std::size_t after) const { return (x_[after - 1] + x_[after]) / 2.0; }
    [[nodiscard]] double gap_before(std::size_t after) const { return x_[after] - x_[after - 1]; }

private:
    double origin_s_;
    double edge_s_;
    std::vector<double> x_, y_, weight_;
};

/// Standard deviations of all coefficients beforehand, for one thing supposed; `gap` between the points about the kink.
[[nodiscard]] Vector deviations(double gap, const Supposed& supposed);

/// What the samples say with the kink in one place.
struct Place {
    std::size_t after = 0; ///< number of the first point after the kink
    double spacing = 1.0;  ///< places it stands for
    double gap = 0.0;
    Matrix normal{};
    Vector right{};
    std::array<double, kSupposed.size()> share{}; ///< of each thing supposed, by its evidence
    /// Logarithm of the evidence of all that is supposed.
    double total = -std::numeric_limits<double>::infinity();
};

/// Every place is worth trying, but neighbours differ little where the foot is smooth: a coarse round up to the point
/// `last_kink`, then ever finer ones about the best. Never empty.
[[nodiscard]] std::vector<Place> places_of(const Edge& edge, std::size_t last_kink);

[[nodiscard]] std::size_t best_of(const std::vector<Place>& places);

} // namespace zeroline::signal::kink
