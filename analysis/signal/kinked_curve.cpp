#include "analysis/signal/kinked_curve.hpp"

#include "analysis/signal/small_matrix.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace zeroline::signal {
namespace {

// Before the kink: level, slope, bend. From it on, added: a jump (where between two points the kink lies is not known),
// slope and bends.
constexpr std::size_t kBase = 3;
constexpr std::size_t kSize = kBase + 6;
using Vector = SmallVector<kSize>;
using Matrix = SmallMatrix<kSize>;

// Standard deviations beforehand, time in units of the edge's 10-90 % time.
constexpr std::array<double, kBase> kLevel{0.1, 0.3, 0.3};
constexpr double kSlope = 3.0;
constexpr std::array<double, 4> kBends{4.0 / 2.0, 10.0 / 6.0, 30.0 / 24.0, 100.0 / 120.0};

// What an edge may be, before its samples are looked at.
struct Supposed {
    double level = 1.0; // share of the deviations before the kink
    double slope = 3.0; // standard deviation of the slope at the kink
    double bends = 1.0; // share of those of the bends
};
constexpr std::array<Supposed, 8> kSupposed{{{1.0, kSlope, 0.12},
                                             {1.0, kSlope, 0.4},
                                             {1.0, kSlope, 1.3},
                                             {1.0, 0.03, 0.5},
                                             {1.0, 0.03, 4.0},
                                             {0.05, kSlope, 0.4},
                                             {0.05, 0.03, 0.5},
                                             {0.05, 0.03, 4.0}}};
constexpr double kJump = 1.0;       // slope of an edge at its corner, for the jump
constexpr std::size_t kCoarse = 16; // places tried at first
constexpr double kNegligible = 1e-3;

struct Solution {
    Vector coefficients{};
    Matrix covariance{};
    double share = 0.0;
};

// The points in units of the edge, and what is common to all curves through them.
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
    // The middle between points `after` - 1 and `after`.
    [[nodiscard]] double kink_before(std::size_t after) const { return (x_[after - 1] + x_[after]) / 2.0; }
    [[nodiscard]] double gap_before(std::size_t after) const { return x_[after] - x_[after - 1]; }

private:
    double origin_s_;
    double edge_s_;
    std::vector<double> x_, y_, weight_;
};

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

Vector slopes(double x, double kink)
{
    const double u = x - kink;
    Vector row{0.0, 1.0, 2.0 * u};
    if (u > 0.0) {
        double power = 1.0;
        for (std::size_t k = kBase + 1; k < kSize; ++k) {
            row[k] = static_cast<double>(k - kBase) * power;
            power *= u;
        }
    }
    return row;
}

struct Curve {
    double kink = 0.0;
    double gap = 0.0; // between the samples about the kink
    Vector coefficients{};
    Matrix covariance{};
    Matrix normal{};

    [[nodiscard]] double at(double x) const { return product(columns(x, kink), coefficients); }
    [[nodiscard]] double slope_at(double x) const { return product(slopes(x, kink), coefficients); }
    // A limit that lies between what the curve is before the kink and after it is crossed at the kink itself, where the
    // curve has no slope: all that is known is the two samples about it.
    [[nodiscard]] bool crosses_in_jump(double x) const { return std::abs(x - kink) < 1e-9; }
    [[nodiscard]] bool rises_at(double x) const { return crosses_in_jump(x) || slope_at(x) > 0.0; }
};

// Normal equations of the samples with what is supposed beforehand added.
struct Equations {
    Matrix lower{}; // Cholesky's
    double log_evidence = -std::numeric_limits<double>::infinity();
};

std::optional<Equations> equations(const Matrix& normal, const Vector& right, double gap, const Supposed& supposed)
{
    Matrix with_prior = normal;
    double prior = 1.0;
    for (std::size_t i = 0; i < kSize; ++i) {
        double deviation = 0.0;
        if (i < kBase) {
            deviation = supposed.level * kLevel[i];
        } else if (i == kBase) {
            deviation = kJump * std::min(1.0, supposed.slope) * gap + 1e-6;
        } else {
            deviation = i == kBase + 1 ? supposed.slope : supposed.bends * kBends[i - kBase - 2];
        }
        with_prior[i][i] += 1.0 / (deviation * deviation);
        prior *= deviation;
    }
    Equations result;
    if (!decompose(with_prior, result.lower)) {
        return std::nullopt;
    }
    // The evidence needs no more than one substitution.
    Vector half{};
    double explained = 0.0;
    double determinant = 1.0;
    for (std::size_t i = 0; i < kSize; ++i) {
        double sum = right[i];
        for (std::size_t k = 0; k < i; ++k) {
            sum -= result.lower[i][k] * half[k];
        }
        half[i] = sum / result.lower[i][i];
        explained += half[i] * half[i];
        determinant *= result.lower[i][i];
    }
    result.log_evidence = 0.5 * explained - std::log(prior * determinant);
    return result;
}

// What the samples say with the kink in one place.
struct Place {
    std::size_t after = 0;
    double spacing = 1.0; // places it stands for
    double gap = 0.0;
    Matrix normal{};
    Vector right{};
    std::array<double, kSupposed.size()> log_evidence{};
    double best = -std::numeric_limits<double>::infinity();
    double total = -std::numeric_limits<double>::infinity();
};

Place place_before(const Edge& edge, std::size_t after, double spacing)
{
    Place place;
    place.after = after;
    place.spacing = spacing;
    place.gap = edge.gap_before(after);
    const double kink = edge.kink_before(after);
    for (std::size_t i = 0; i < edge.size(); ++i) {
        const Vector row = columns(edge.x(i), kink);
        const std::size_t used = i < after ? kBase : kSize;
        for (std::size_t a = 0; a < used; ++a) {
            const double weighted = edge.weight(i) * row[a];
            place.right[a] += weighted * edge.y(i);
            for (std::size_t b = 0; b <= a; ++b) {
                place.normal[a][b] += weighted * row[b];
            }
        }
    }
    for (std::size_t a = 0; a < kSize; ++a) {
        for (std::size_t b = a + 1; b < kSize; ++b) {
            place.normal[a][b] = place.normal[b][a];
        }
    }
    for (std::size_t k = 0; k < kSupposed.size(); ++k) {
        const auto one = equations(place.normal, place.right, place.gap, kSupposed[k]);
        place.log_evidence[k] = one ? one->log_evidence : -std::numeric_limits<double>::infinity();
        place.best = std::max(place.best, place.log_evidence[k]);
    }
    double sum = 0.0;
    for (const double one : place.log_evidence) {
        sum += std::exp(one - place.best);
    }
    place.total = place.best + std::log(sum);
    return place;
}

// All curves with the kink in one place, averaged by their evidence.
Curve curve_at(const Edge& edge, const Place& place)
{
    Curve curve;
    curve.kink = edge.kink_before(place.after);
    curve.gap = place.gap;
    curve.normal = place.normal;
    std::array<Solution, kSupposed.size()> solutions;
    for (std::size_t k = 0; k < kSupposed.size(); ++k) {
        const double share = std::exp(place.log_evidence[k] - place.total);
        const auto one =
            share < kNegligible ? std::nullopt : equations(place.normal, place.right, place.gap, kSupposed[k]);
        if (!one) {
            continue;
        }
        solutions[k].share = share;
        solutions[k].covariance = inverse_of(one->lower);
        solutions[k].coefficients = product(solutions[k].covariance, place.right);
        for (std::size_t i = 0; i < kSize; ++i) {
            curve.coefficients[i] += share * solutions[k].coefficients[i];
        }
    }
    for (const Solution& one : solutions) {
        for (std::size_t i = 0; one.share > 0.0 && i < kSize; ++i) {
            const double apart = one.coefficients[i] - curve.coefficients[i];
            for (std::size_t j = 0; j < kSize; ++j) {
                curve.covariance[i][j] +=
                    one.share * (one.covariance[i][j] + apart * (one.coefficients[j] - curve.coefficients[j]));
            }
        }
    }
    return curve;
}

// The last crossing before `from`, at which the curve lies above.
std::optional<double> last_crossing(const Curve& curve, double fraction, double from, double earliest)
{
    constexpr int kSteps = 64;
    const double step = (from - earliest) / kSteps;
    double high = from;
    while (high > earliest && curve.at(high - step) >= fraction) {
        high -= step;
    }
    if (high <= earliest) {
        return std::nullopt;
    }
    double low = high - step;
    for (int k = 0; k < 45; ++k) {
        const double middle = (low + high) / 2.0;
        (curve.at(middle) < fraction ? low : high) = middle;
    }
    return (low + high) / 2.0;
}

std::size_t best_of(const std::vector<Place>& places)
{
    const auto best = std::max_element(places.begin(), places.end(),
                                       [](const Place& a, const Place& b) { return a.total < b.total; });
    return static_cast<std::size_t>(best - places.begin());
}

// Every place is worth trying, but neighbours differ little where the foot is smooth: a coarse round, then ever finer
// ones about the best.
std::vector<Place> places_of(const Edge& edge, std::size_t last_kink)
{
    std::vector<Place> places;
    std::size_t stride = std::max<std::size_t>(1, last_kink / kCoarse);
    for (std::size_t after = 1; after <= last_kink; after += stride) {
        places.push_back(place_before(edge, after, static_cast<double>(stride)));
    }
    while (stride > 1) {
        const std::size_t finer = stride > 3 ? stride / 3 : 1;
        Place& best = places[best_of(places)];
        const std::size_t centre = best.after;
        best.spacing = static_cast<double>(finer);
        const std::size_t reach = stride - 1;
        for (std::size_t away = finer; away <= reach; away += finer) {
            if (centre > away) {
                places.push_back(place_before(edge, centre - away, static_cast<double>(finer)));
            }
            if (centre + away <= last_kink) {
                places.push_back(place_before(edge, centre + away, static_cast<double>(finer)));
            }
        }
        stride = finer;
    }
    return places;
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
    const Vector reaction = product(curve.covariance, gradient);
    const double all = product(gradient, reaction);
    const double noise = product(reaction, product(curve.normal, reaction));
    return {edge.edge_s() * std::sqrt(std::max(0.0, noise)),
            edge.edge_s() * std::hypot(std::sqrt(std::max(0.0, all - noise)), between)};
}

double misfit_of(const Edge& edge, const Curve& curve)
{
    double squares = 0.0;
    for (std::size_t i = 0; i < edge.size(); ++i) {
        const double off = edge.y(i) - curve.at(edge.x(i));
        squares += off * off * edge.weight(i);
    }
    return std::sqrt(squares / static_cast<double>(edge.size()));
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
    const std::vector<Place> places = places_of(edge, last_kink);
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
    auto result = average.result(edge);
    if (result) {
        result->misfit = misfit_of(edge, curve_at(edge, best));
    }
    return result;
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
