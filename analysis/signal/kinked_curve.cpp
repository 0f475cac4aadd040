#include "analysis/signal/kinked_curve.hpp"

#include "analysis/signal/kink_places.hpp"
#include "analysis/signal/misfit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace zeroline::signal {
namespace {

using kink::best_of;
using kink::Edge;
using kink::kBase;
using kink::kSize;
using kink::kSupposed;
using kink::Matrix;
using kink::Place;
using kink::Vector;

constexpr double kNegligible = 1e-3;

Vector columns(double x, double kink)
{
    const double u = x - kink;
    Vector row{1.0, u, u * u};
    if (u > 0.0) {
        double power = 1.0;
        for (std::size_t k = kBase; k < kSize; ++k) {
            row[k] = power;
            power *= u;
        }
    }
    return row;
}

// The curve with one thing supposed beforehand.
struct Solution {
    double share = 0.0;
    Vector coefficients{};
    Matrix lower{}; // Cholesky's, of the normal equations with what is supposed added
};

struct Curve {
    double kink = 0.0;
    double gap = 0.0; // between the samples about the kink
    Vector coefficients{};
    std::vector<Solution> solutions;
    Matrix normal{};

    // Up to the kink, and carried on beyond it.
    [[nodiscard]] double before_at(double u) const
    {
        return coefficients[0] + u * (coefficients[1] + u * coefficients[2]);
    }
    [[nodiscard]] double at(double x) const
    {
        const double u = x - kink;
        double added = 0.0;
        for (std::size_t k = kSize; u > 0.0 && k-- > kBase;) {
            added = added * u + coefficients[k];
        }
        return before_at(u) + added;
    }
    [[nodiscard]] double slope_at(double x) const
    {
        const double u = x - kink;
        double added = 0.0;
        for (std::size_t k = kSize; u > 0.0 && k-- > kBase + 1;) {
            added = added * u + static_cast<double>(k - kBase) * coefficients[k];
        }
        return coefficients[1] + 2.0 * u * coefficients[2] + added;
    }
    // A limit that lies between what the curve is before the kink and after it is crossed at the kink itself, where the
    // curve has no slope: all that is known is the two samples about it.
    [[nodiscard]] bool crosses_in_jump(double x) const { return std::abs(x - kink) < 1e-9; }
    [[nodiscard]] bool rises_at(double x) const { return crosses_in_jump(x) || slope_at(x) > 0.0; }
};

std::optional<Solution> solution_of(const Place& place, std::size_t supposed)
{
    Solution solution;
    solution.share = place.share[supposed];
    const Vector deviation = kink::deviations(place.gap, kSupposed[supposed]);
    Matrix with_prior = place.normal;
    for (std::size_t i = 0; i < kSize; ++i) {
        with_prior[i][i] += 1.0 / (deviation[i] * deviation[i]);
    }
    if (!decompose(with_prior, solution.lower)) {
        return std::nullopt;
    }
    solution.coefficients = solved(solution.lower, place.right);
    return solution;
}

// All curves with the kink in one place, averaged by their evidence.
Curve curve_at(const Edge& edge, const Place& place)
{
    Curve curve;
    curve.kink = edge.kink_before(place.after);
    curve.gap = place.gap;
    curve.normal = place.normal;
    for (std::size_t k = 0; k < kSupposed.size(); ++k) {
        if (auto one = place.share[k] < kNegligible ? std::nullopt : solution_of(place, k)) {
            for (std::size_t i = 0; i < kSize; ++i) {
                curve.coefficients[i] += one->share * one->coefficients[i];
            }
            curve.solutions.push_back(*one);
        }
    }
    return curve;
}

// Where the curve comes to the fraction between two places, below it at the first and not below it at the second:
// Newton's steps where they stay between the two, halving where not.
double crossing_between(const Curve& curve, double fraction, double low, double high)
{
    if (low < curve.kink && curve.kink < high) {
        const double before = curve.before_at(0.0);
        if (before + curve.coefficients[kBase] < fraction) {
            low = curve.kink;
        } else if (before < fraction) {
            return curve.kink;
        } else {
            high = curve.kink;
        }
    }
    constexpr double kClose = 1e-14;
    double at = (low + high) / 2.0;
    double moved = high - low;
    for (int k = 0; k < 60 && high - low > kClose && moved > kClose; ++k) {
        const double off = curve.at(at) - fraction;
        (off < 0.0 ? low : high) = at;
        const double slope = curve.slope_at(at);
        double next = slope > 0.0 ? at - off / slope : low;
        // Newton's steps grow ever shorter; where they do not, the curve is not what they take it for.
        if (!(next > low && next < high) || std::abs(next - at) > 0.5 * moved) {
            next = (low + high) / 2.0;
        }
        moved = std::abs(next - at);
        at = next;
    }
    return at;
}

// The last crossing before `from`, at which the curve lies above, and not before `earliest`: there it is only carried
// on.
std::optional<double> last_crossing(const Curve& curve, double fraction, double from, double earliest)
{
    constexpr int kSteps = 64;
    const double step = (from - earliest) / kSteps;
    double high = from;
    for (int k = 1; k <= kSteps; ++k) {
        const double low = from - k * step;
        if (curve.at(low) < fraction) {
            return crossing_between(curve, fraction, low, high);
        }
        high = low;
    }
    return std::nullopt;
}

// Uncertainty of a weighted sum of crossings on one curve.
LocalCurve::Spread spread_on(const Edge& edge, const Curve& curve, std::span<const LocalCurve::Weighted> crossings)
{
    Vector gradient{};
    double between = 0.0; // standard uncertainty of what lies anywhere between two samples
    for (const auto& crossing : crossings) {
        if (curve.crosses_in_jump(crossing.time_s)) {
            between += crossing.weight * curve.gap / std::sqrt(12.0);
            continue;
        }
        const Vector row = columns(crossing.time_s, curve.kink);
        const double share = crossing.weight / curve.slope_at(crossing.time_s);
        for (std::size_t k = 0; k < kSize; ++k) {
            gradient[k] += share * row[k];
        }
    }
    // Covariance times gradient: that of each solution, and how far they lie apart.
    Vector reaction{};
    for (const Solution& one : curve.solutions) {
        const Vector own = solved(one.lower, gradient);
        double apart = 0.0;
        for (std::size_t i = 0; i < kSize; ++i) {
            apart += (one.coefficients[i] - curve.coefficients[i]) * gradient[i];
        }
        for (std::size_t i = 0; i < kSize; ++i) {
            reaction[i] += one.share * (own[i] + apart * (one.coefficients[i] - curve.coefficients[i]));
        }
    }
    const double all = product(gradient, reaction);
    const double noise = product(reaction, product(curve.normal, reaction));
    return {edge.edge_s() * std::sqrt(std::max(0.0, noise)),
            edge.edge_s() * std::hypot(std::sqrt(std::max(0.0, all - noise)), between)};
}

class Average {
public:
    void add(double weight, double t10, double t30, LocalCurve::Spread onset, LocalCurve::Spread at_10)
    {
        const double value = 1.5 * t10 - 0.5 * t30;
        weight_ += weight;
        sum_10_ += weight * t10;
        squares_10_ += weight * t10 * t10;
        sum_30_ += weight * t30;
        squares_ += weight * value * value;
        noise_ += weight * onset.noise_s * onset.noise_s;
        bend_ += weight * onset.bend_s * onset.bend_s;
        noise_10_ += weight * at_10.noise_s * at_10.noise_s;
        bend_10_ += weight * at_10.bend_s * at_10.bend_s;
    }

    [[nodiscard]] std::optional<KinkedCurve::Onset> result(const Edge& edge) const
    {
        if (weight_ <= 0.0) {
            return std::nullopt;
        }
        const double t10 = sum_10_ / weight_;
        const double t30 = sum_30_ / weight_;
        const double value = 1.5 * t10 - 0.5 * t30;
        const double scale = edge.edge_s() * edge.edge_s();
        const double apart = std::max(0.0, squares_ / weight_ - value * value) * scale;
        const double apart_10 = std::max(0.0, squares_10_ / weight_ - t10 * t10) * scale;
        KinkedCurve::Onset onset;
        onset.time_10_s = edge.time_at(t10);
        onset.time_30_s = edge.time_at(t30);
        onset.onset_s = edge.time_at(value);
        onset.onset_spread = {std::sqrt(noise_ / weight_), std::sqrt(bend_ / weight_ + apart)};
        onset.spread_10 = {std::sqrt(noise_10_ / weight_), std::sqrt(bend_10_ / weight_ + apart_10)};
        return onset;
    }

private:
    double weight_ = 0.0;
    double sum_10_ = 0.0, squares_10_ = 0.0, sum_30_ = 0.0, squares_ = 0.0;
    double noise_ = 0.0, bend_ = 0.0, noise_10_ = 0.0, bend_10_ = 0.0;
};

// What the likeliest curve leaves of the samples of the edge itself tells how far off its crossings are.
void correct_by_misfit(KinkedCurve::Onset& onset, const Edge& edge, const Curve& curve,
                       std::span<const KinkedCurve::Point> points, double noise)
{
    constexpr double kOnTheEdge = 0.02;
    Misfit misfit(noise);
    for (std::size_t i = 0; i < edge.size(); ++i) {
        const double at = curve.at(edge.x(i));
        if (at > kOnTheEdge) {
            misfit.add(at, edge.y(i) - at, points[i].weight);
        }
    }
    const auto slope_at = [&](double time_s) {
        return curve.slope_at((time_s - edge.time_at(0.0)) / edge.edge_s()) / edge.edge_s();
    };
    correct(onset, misfit, slope_at(onset.time_10_s), slope_at(onset.time_30_s), edge.edge_s());
}

} // namespace

std::optional<KinkedCurve::Onset> KinkedCurve::onset(std::span<const Point> points, double edge_s, double noise)
{
    if (points.size() < 5 || !(edge_s > 0.0)) {
        return std::nullopt;
    }
    const Edge edge(points, edge_s, noise);
    std::size_t last_kink = edge.size() - 3;
    while (last_kink > 1 && edge.y(last_kink) > 0.4) {
        --last_kink;
    }
    const std::vector<Place> places = kink::places_of(edge, last_kink);
    const Place& best = places[best_of(places)];
    Average average;
    for (const Place& place : places) {
        const double weight = place.spacing * std::exp(place.total - best.total);
        if (!(weight > kNegligible)) {
            continue;
        }
        const Curve curve = curve_at(edge, place);
        const auto t30 = last_crossing(curve, 0.3, 0.0, edge.x(0));
        const auto t10 = t30 ? last_crossing(curve, 0.1, *t30, edge.x(0)) : std::nullopt;
        if (!t10 || !curve.rises_at(*t10) || !curve.rises_at(*t30)) {
            continue;
        }
        const std::array<LocalCurve::Weighted, 2> both{{{*t10, 1.5}, {*t30, -0.5}}};
        const std::array<LocalCurve::Weighted, 1> at_10{{{*t10, 1.0}}};
        average.add(weight, *t10, *t30, spread_on(edge, curve, both), spread_on(edge, curve, at_10));
    }
    auto onset = average.result(edge);
    if (onset) {
        correct_by_misfit(*onset, edge, curve_at(edge, best), points, noise);
    }
    return onset;
}

std::vector<KinkedCurve::Point> grouped(std::span<const LocalCurve::Point> points, std::size_t most)
{
    std::vector<KinkedCurve::Point> groups;
    const std::size_t length = (points.size() + most - 1) / std::max<std::size_t>(most, 1);
    for (std::size_t first = 0; length > 0 && first < points.size(); first += length) {
        const std::size_t last = std::min(points.size(), first + length);
        KinkedCurve::Point group{0.0, 0.0, static_cast<double>(last - first)};
        for (std::size_t i = first; i < last; ++i) {
            group.time_s += (points[i].time_s - points[first].time_s) / group.weight;
            group.fraction += points[i].fraction / group.weight;
        }
        group.time_s += points[first].time_s;
        groups.push_back(group);
    }
    return groups;
}

} // namespace zeroline::signal
