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

// Standard deviations of all coefficients, for one thing supposed.
Vector deviations(double gap, const Supposed& supposed)
{
    Vector deviation{};
    for (std::size_t i = 0; i < kBase; ++i) {
        deviation[i] = supposed.level * kLevel[i];
    }
    deviation[kBase] = kJump * std::min(1.0, supposed.slope) * gap + 1e-6;
    deviation[kBase + 1] = supposed.slope;
    for (std::size_t k = 0; k < kBends.size(); ++k) {
        deviation[kBase + 2 + k] = supposed.bends * kBends[k];
    }
    return deviation;
}

// What the samples say with the kink in one place.
struct Place {
    std::size_t after = 0;
    double spacing = 1.0; // places it stands for
    double gap = 0.0;
    Matrix normal{};
    Vector right{};
    std::array<double, kSupposed.size()> share{}; // of each thing supposed, by its evidence
    double total = -std::numeric_limits<double>::infinity();
};

// Sums over powers of the time since the kink: the normal equations hold nothing else.
struct Moments {
    static constexpr std::size_t kPowers = 2 * (kSize - kBase) - 1;
    std::array<double, kPowers> powers{};
    std::array<double, kSize - kBase> with_value{};

    template <std::size_t Powers, std::size_t Values> void add(double u, double value, double weight)
    {
        double power = weight;
        for (std::size_t k = 0; k < Powers; ++k) {
            powers[k] += power;
            if (k < Values) {
                with_value[k] += power * value;
            }
            power *= u;
        }
    }
};

void take_sums(Place& place, const Edge& edge)
{
    const double kink = edge.kink_before(place.after);
    Moments before;
    Moments after;
    for (std::size_t i = 0; i < place.after; ++i) {
        before.add<2 * kBase - 1, kBase>(edge.x(i) - kink, edge.y(i), edge.weight(i));
    }
    for (std::size_t i = place.after; i < edge.size(); ++i) {
        after.add<Moments::kPowers, kSize - kBase>(edge.x(i) - kink, edge.y(i), edge.weight(i));
    }
    for (std::size_t a = 0; a < kSize; ++a) {
        const std::size_t power = a < kBase ? a : a - kBase;
        place.right[a] = after.with_value[power] + (a < kBase ? before.with_value[power] : 0.0);
        for (std::size_t b = 0; b <= a; ++b) {
            const std::size_t both = power + (b < kBase ? b : b - kBase);
            place.normal[a][b] = after.powers[both] + (a < kBase ? before.powers[both] : 0.0);
            place.normal[b][a] = place.normal[a][b];
        }
    }
}

// The first columns of the normal equations eliminated: they are the same for all that is supposed of the edge.
struct LevelsOff {
    Matrix normal{};
    Vector right{};
    double explained = 0.0;
    double determinant = 1.0;
};

LevelsOff levels_off(const Place& place, const Supposed& supposed)
{
    const Vector deviation = deviations(place.gap, supposed);
    LevelsOff rest{place.normal, place.right};
    for (std::size_t c = 0; c < kBase; ++c) {
        const double pivot = rest.normal[c][c] + 1.0 / (deviation[c] * deviation[c]);
        rest.determinant *= pivot;
        rest.explained += rest.right[c] * rest.right[c] / pivot;
        for (std::size_t i = c + 1; i < kSize; ++i) {
            const double factor = rest.normal[i][c] / pivot;
            rest.right[i] -= factor * rest.right[c];
            for (std::size_t j = c + 1; j <= i; ++j) {
                rest.normal[i][j] -= factor * rest.normal[j][c];
            }
        }
    }
    return rest;
}

// One number for each thing supposed: what is done to one is done to all in step.
using Lanes = std::array<double, kSupposed.size()>;

// Evidence of all that is supposed: half of what it explains, and the volume of what it allows. Elimination without
// square roots.
class Evidence {
public:
    explicit Evidence(const Place& place)
    {
        const LevelsOff free = levels_off(place, kSupposed.front());
        const LevelsOff held = levels_off(place, kSupposed.back());
        for (std::size_t k = 0; k < kSupposed.size(); ++k) {
            place_lane(k, kSupposed[k].level == kSupposed.front().level ? free : held,
                       deviations(place.gap, kSupposed[k]));
        }
    }

    void eliminate(std::size_t column)
    {
        Lanes inverse{};
        for (std::size_t k = 0; k < inverse.size(); ++k) {
            const double pivot = normal_[column][column][k];
            determinant[k] *= pivot;
            inverse[k] = 1.0 / pivot;
            explained[k] += right_[column][k] * right_[column][k] * inverse[k];
        }
        for (std::size_t i = column + 1; i < kAdded; ++i) {
            Lanes factor{};
            for (std::size_t k = 0; k < factor.size(); ++k) {
                factor[k] = normal_[i][column][k] * inverse[k];
                right_[i][k] -= factor[k] * right_[column][k];
            }
            for (std::size_t j = column + 1; j <= i; ++j) {
                for (std::size_t k = 0; k < factor.size(); ++k) {
                    normal_[i][j][k] -= factor[k] * normal_[j][column][k];
                }
            }
        }
    }

    static constexpr std::size_t kAdded = kSize - kBase;
    Lanes explained{};
    Lanes determinant{};
    Lanes prior{};

private:
    void place_lane(std::size_t k, const LevelsOff& levels, const Vector& deviation)
    {
        explained[k] = levels.explained;
        determinant[k] = levels.determinant;
        prior[k] = 1.0;
        for (const double one : deviation) {
            prior[k] *= one;
        }
        for (std::size_t i = 0; i < kAdded; ++i) {
            right_[i][k] = levels.right[kBase + i];
            for (std::size_t j = 0; j <= i; ++j) {
                normal_[i][j][k] = levels.normal[kBase + i][kBase + j];
            }
            normal_[i][i][k] += 1.0 / (deviation[kBase + i] * deviation[kBase + i]);
        }
    }

    std::array<std::array<Lanes, kAdded>, kAdded> normal_{};
    std::array<Lanes, kAdded> right_{};
};

Place place_before(const Edge& edge, std::size_t after, double spacing)
{
    Place place;
    place.after = after;
    place.spacing = spacing;
    place.gap = edge.gap_before(after);
    take_sums(place, edge);
    Evidence evidence(place);
    for (std::size_t column = 0; column < Evidence::kAdded; ++column) {
        evidence.eliminate(column);
    }
    const double most = *std::max_element(evidence.explained.begin(), evidence.explained.end());
    double sum = 0.0;
    for (std::size_t k = 0; k < kSupposed.size(); ++k) {
        const bool solved = evidence.determinant[k] > 0.0 && std::isfinite(evidence.explained[k]);
        place.share[k] = solved ? std::exp(0.5 * (evidence.explained[k] - most)) /
                                      (evidence.prior[k] * std::sqrt(evidence.determinant[k]))
                                : 0.0;
        sum += place.share[k];
    }
    for (double& share : place.share) {
        share = sum > 0.0 ? share / sum : 0.0;
    }
    place.total = sum > 0.0 ? 0.5 * most + std::log(sum) : place.total;
    return place;
}

std::optional<Solution> solution_of(const Place& place, std::size_t supposed)
{
    Solution solution;
    solution.share = place.share[supposed];
    const Vector deviation = deviations(place.gap, kSupposed[supposed]);
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
    return crossing_between(curve, fraction, high - step, high);
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
    return average.result(edge);
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
