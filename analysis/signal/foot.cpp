#include "analysis/signal/foot.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <span>

namespace zeroline::signal {
namespace {

using Point = LocalCurve::Point;

constexpr double kFoot = 0.01;       // fractions below lie before the corner, or too near to it ...
constexpr double kFootAtMost = 0.09; // ... where what precedes the edge is no steadier, the curve may begin here
constexpr double kShoulder = 0.7;    // the foot's curve ends here
constexpr double kSparse = 5.5;      // sample intervals: a faster edge has too few samples for a curve to be of use

// Straight lines between the samples: the crossing of the foot's points nearest to the shoulder.
double rough_crossing(const Foot& foot, double fraction)
{
    Point above = foot.points.back();
    for (std::size_t i = foot.points.size(); i-- > 0;) {
        const Point point = foot.points[i];
        if (point.fraction < fraction) {
            const double rise = above.fraction - point.fraction;
            const double share = rise > 0.0 ? (fraction - point.fraction) / rise : 1.0;
            return point.time_s + std::min(1.0, share) * (above.time_s - point.time_s);
        }
        above = point;
    }
    if (foot.before && above.fraction > foot.before->fraction) {
        const double share = (fraction - foot.before->fraction) / (above.fraction - foot.before->fraction);
        return foot.before->time_s + std::clamp(share, 0.0, 1.0) * (above.time_s - foot.before->time_s);
    }
    return above.time_s;
}

// Walks from the middle of an edge towards its foot and towards its shoulder.
class Walk {
public:
    Walk(const EdgeSamples& edge, std::size_t mid, bool mirrored, double noise)
        : edge_(edge), mid_(mid), mirrored_(mirrored), noise_(noise)
    {
        while (down_ < to_foot() && foot_point(down_).fraction >= 0.3) {
            ++down_;
        }
        // Samples that are averaged before they decide where the foot ends: as many as bring the noise to half a
        // percent, at most a fifth of what lies between 30 % and the middle.
        const double wanted = (noise / 0.005) * (noise / 0.005);
        reach_ = static_cast<std::size_t>(std::min(wanted, static_cast<double>(down_) / 5.0) / 2.0);
    }

    [[nodiscard]] std::size_t to_foot() const { return mirrored_ ? edge_.size() - mid_ : mid_; }
    [[nodiscard]] std::size_t to_shoulder() const { return mirrored_ ? mid_ : edge_.size() - mid_; }
    [[nodiscard]] Point foot_point(std::size_t k) const { return edge_.point(foot_index(k), mirrored_); }
    [[nodiscard]] Point shoulder_point(std::size_t k) const { return edge_.point(shoulder_index(k), mirrored_); }
    [[nodiscard]] double foot_level(std::size_t k) const { return level(foot_index(k)); }
    [[nodiscard]] double shoulder_level(std::size_t k) const { return level(shoulder_index(k)); }

    // Where the curve may begin: clear of the noise, and of what the pressure does before the edge (droop, ripple, a
    // ring).
    [[nodiscard]] double lowest() const
    {
        std::size_t k = down_;
        while (k < to_foot() && foot_level(k) >= 0.1) {
            ++k;
        }
        // From the middle to 10 % again, and as much before that.
        const std::size_t away = k + std::max<std::size_t>(k, 1);
        const std::size_t end = std::min(away + std::max<std::size_t>(k, 5), to_foot());
        double sum = 0.0;
        double squares = 0.0;
        for (std::size_t j = away; j < end; ++j) {
            const double fraction = foot_point(j).fraction;
            sum += fraction;
            squares += fraction * fraction;
        }
        const double averaged = noise_ / std::sqrt(2.0 * static_cast<double>(reach_) + 1.0);
        double lowest = std::max(kFoot, 4.0 * averaged);
        if (end >= away + 3) {
            const auto taken = static_cast<double>(end - away);
            const double mean = sum / taken;
            const double spread = std::sqrt(std::max(0.0, squares / taken - mean * mean));
            lowest = std::max(lowest, mean + 4.0 * std::max(spread - noise_, averaged));
        }
        return std::min(lowest, kFootAtMost);
    }

private:
    [[nodiscard]] std::size_t foot_index(std::size_t k) const { return mirrored_ ? mid_ + k : mid_ - 1 - k; }
    [[nodiscard]] std::size_t shoulder_index(std::size_t k) const { return mirrored_ ? mid_ - 1 - k : mid_ + k; }
    [[nodiscard]] double level(std::size_t i) const
    {
        const double fraction = edge_.smoothed(i, reach_);
        return mirrored_ ? 1.0 - fraction : fraction;
    }

    const EdgeSamples& edge_;
    std::size_t mid_;
    bool mirrored_;
    double noise_;
    std::size_t down_ = 0; // samples from the middle to 30 %
    std::size_t reach_ = 0;
};

} // namespace

Foot collect_foot(const EdgeSamples& edge, std::size_t mid, bool mirrored, double noise)
{
    const Walk walk(edge, mid, mirrored, noise);
    Foot foot;
    // Up to the shoulder, the sample next to the middle at least.
    std::size_t beyond = 0;
    while (beyond < walk.to_shoulder() && walk.shoulder_level(beyond) < kShoulder) {
        ++beyond;
    }
    for (std::size_t k = std::max<std::size_t>(beyond, 1); k-- > 0;) {
        foot.points.push_back(walk.shoulder_point(k));
    }
    const double lowest = walk.lowest();
    for (std::size_t k = 0; k < walk.to_foot(); ++k) {
        if (walk.foot_level(k) <= lowest) {
            foot.before = walk.foot_point(k);
            break;
        }
        foot.points.push_back(walk.foot_point(k));
    }
    std::reverse(foot.points.begin(), foot.points.end());
    foot.rough_10_s = rough_crossing(foot, 0.1);
    foot.rough_30_s = rough_crossing(foot, 0.3);
    return foot;
}

namespace {

FittedFoot plain_foot(const Foot& foot, double interval_s, double noise)
{
    FittedFoot result;
    result.time_10_s = foot.rough_10_s;
    result.time_30_s = foot.rough_30_s;
    result.onset_s = 1.5 * foot.rough_10_s - 0.5 * foot.rough_30_s;
    const double slope = 0.2 / std::max(foot.rough_30_s - foot.rough_10_s, interval_s / 5.0);
    result.spread_10 = {noise / slope, interval_s / std::sqrt(12.0)};
    result.onset_spread = {1.6 * noise / slope, interval_s / std::sqrt(12.0)};
    return result;
}

// Crossing times by one curve.
struct Crossings {
    double time_10_s = 0.0;
    double time_30_s = 0.0;
    [[nodiscard]] double onset_s() const { return 1.5 * time_10_s - 0.5 * time_30_s; }
};

std::optional<Crossings> crossings_of(const LocalCurve& curve, const Foot& foot, double reach_s)
{
    auto t10 = curve.crossing(0.1, foot.rough_10_s, reach_s);
    const auto t30 = curve.crossing(0.3, foot.rough_30_s, reach_s);
    if (!t10 || !t30) {
        return std::nullopt;
    }
    if (foot.before && foot.points.front().fraction > 0.1) {
        t10 = std::clamp(*t10, foot.before->time_s, foot.points.front().time_s);
    }
    return *t30 > *t10 ? std::optional<Crossings>({*t10, *t30}) : std::nullopt;
}

FittedFoot from_curve(const LocalCurve& curve, Crossings at, std::span<const Point> points, double edge_s, double noise)
{
    const std::array<LocalCurve::Weighted, 2> onset{{{at.time_10_s, 1.5}, {at.time_30_s, -0.5}}};
    const std::array<LocalCurve::Weighted, 1> at_10{{{at.time_10_s, 1.0}}};
    FittedFoot foot{at.time_10_s, at.time_30_s, at.onset_s(), curve.spread_of(onset), curve.spread_of(at_10)};
    correct(foot, misfit_of(curve, points, noise), curve.slope_at(at.time_10_s), curve.slope_at(at.time_30_s), edge_s);
    return foot;
}

double mixed(double weight, double a, double b) { return weight * a + (1.0 - weight) * b; }

LocalCurve::Spread mixed(double weight, LocalCurve::Spread a, LocalCurve::Spread b, double apart)
{
    const double between = weight * (1.0 - weight) * apart * apart;
    return {std::sqrt(mixed(weight, a.noise_s * a.noise_s, b.noise_s * b.noise_s)),
            std::sqrt(mixed(weight, a.bend_s * a.bend_s, b.bend_s * b.bend_s) + between)};
}

FittedFoot mixed(double weight, const FittedFoot& a, const FittedFoot& b)
{
    return {mixed(weight, a.time_10_s, b.time_10_s), mixed(weight, a.time_30_s, b.time_30_s),
            mixed(weight, a.onset_s, b.onset_s), mixed(weight, a.onset_spread, b.onset_spread, a.onset_s - b.onset_s),
            mixed(weight, a.spread_10, b.spread_10, a.time_10_s - b.time_10_s)};
}

// How much more the sample before the foot speaks for a smooth foot than for a corner between it and the first sample
// of the foot. Smooth: it lies on the curve. A corner: anywhere above the curve carried on, which there lies below the
// level.
double odds_of_smooth(const LocalCurve& curve, LocalCurve::Point before, double noise)
{
    constexpr double kWidth = 0.15; // where a smooth foot may lie one sample on, before anything else is known
    const double deviation = std::hypot(curve.deviation_at(before.time_s), noise);
    const double off = (before.fraction - curve.at(before.time_s)) / deviation;
    const double density = std::exp(-0.5 * off * off) / (deviation * std::sqrt(2.0 * std::numbers::pi));
    const double corner_possible = 0.5 * std::erfc(-off / std::numbers::sqrt2);
    return kWidth * density / std::max(corner_possible, 1e-3);
}

} // namespace

FittedFoot fit_foot(const Foot& foot, double edge_s, double interval_s, double noise)
{
    const FittedFoot plain = plain_foot(foot, interval_s, noise);
    if (edge_s < kSparse * interval_s) {
        return plain;
    }
    const double centre_s = (foot.points.front().time_s + foot.points.back().time_s) / 2.0;
    const double reach_s = std::max(edge_s, 2.0 * interval_s);
    const auto curve_through = [&](std::span<const Point> points) {
        return LocalCurve::fit(points, centre_s, edge_s, noise);
    };
    const auto foot_of = [&](const std::optional<LocalCurve>& curve,
                             std::span<const Point> through) -> std::optional<FittedFoot> {
        const auto at = curve ? crossings_of(*curve, foot, reach_s) : std::nullopt;
        return at ? std::optional<FittedFoot>(from_curve(*curve, *at, through, edge_s, noise)) : std::nullopt;
    };
    const auto curve = curve_through(foot.points);
    const auto cornered = foot_of(curve, foot.points);
    if (!foot.before) {
        return cornered.value_or(plain);
    }
    std::vector<Point> points{*foot.before};
    points.insert(points.end(), foot.points.begin(), foot.points.end());
    const auto smooth = foot_of(curve_through(points), points);
    if (!cornered || !smooth) {
        return smooth ? *smooth : plain;
    }
    const double odds = odds_of_smooth(*curve, *foot.before, noise);
    return mixed(odds / (1.0 + odds), *smooth, *cornered);
}

} // namespace zeroline::signal
