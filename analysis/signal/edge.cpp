#include "analysis/signal/edge.hpp"

#include "analysis/signal/local_curve.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kSustained_s = 0.02;
constexpr std::size_t kSustainedSamples = 3;

class Edge {
public:
    Edge(Samples samples, EdgeLevels levels) : samples_(samples), levels_(levels) {}

    [[nodiscard]] double time(std::size_t i) const { return samples_.time_s[i]; }
    [[nodiscard]] double fraction(std::size_t i) const { return levels_.fraction(samples_.pressure_cmH2O[i]); }
    [[nodiscard]] bool beyond(std::size_t i, double limit) const { return fraction(i) >= limit; }

    // Time at which the straight line between samples i - 1 and i crosses a fraction.
    [[nodiscard]] double crossing_before(std::size_t i, double limit) const
    {
        const double below = fraction(i - 1);
        const double above = fraction(i);
        if (!(above > below)) {
            return time(i);
        }
        const double share = std::clamp((limit - below) / (above - below), 0.0, 1.0);
        return time(i - 1) + share * (time(i) - time(i - 1));
    }

    // First sample of the last upward crossing at or before `from`.
    [[nodiscard]] std::size_t last_upward(std::size_t from, double limit, std::size_t earliest) const
    {
        std::size_t i = from;
        while (i > earliest && beyond(i - 1, limit)) {
            --i;
        }
        return i;
    }

    // First sample at or after `from` that is beyond; `latest` where none is.
    [[nodiscard]] std::size_t first_beyond(std::size_t from, double limit, std::size_t latest) const
    {
        std::size_t i = from;
        while (i < latest && !beyond(i, limit)) {
            ++i;
        }
        return i;
    }

private:
    Samples samples_;
    EdgeLevels levels_;
};

bool long_enough(const Edge& edge, std::size_t first, std::size_t last)
{
    return last - first >= kSustainedSamples && edge.time(last - 1) - edge.time(first) >= kSustained_s - 1e-9;
}

// One past the last sample of the last sustained stay before the middle, at or before `from`.
std::optional<std::size_t> end_of_stay(const Edge& edge, std::size_t from, std::size_t earliest)
{
    std::size_t last = from + 1;
    for (std::size_t i = from + 1; i-- > earliest;) {
        if (edge.beyond(i, 0.5)) {
            last = i;
        } else if (last > i && long_enough(edge, i, last)) {
            return last;
        }
    }
    return std::nullopt;
}

std::optional<std::size_t> start_of_stay(const Edge& edge, std::size_t from, std::size_t latest)
{
    std::size_t first = from;
    for (std::size_t i = from; i < latest; ++i) {
        if (!edge.beyond(i, 0.5)) {
            first = i + 1;
        } else if (long_enough(edge, first, i + 1)) {
            return first;
        }
    }
    return std::nullopt;
}

} // namespace

std::optional<MidCrossing> find_mid_crossing(Samples samples, EdgeLevels levels, std::size_t last_before,
                                             std::size_t first_after, std::size_t earliest, std::size_t latest)
{
    if (levels.step() == 0.0 || samples.size() == 0) {
        return std::nullopt;
    }
    const Edge edge(samples, levels);
    const auto left = end_of_stay(edge, std::min(last_before, samples.size() - 1), earliest);
    const auto reached = start_of_stay(edge, left.value_or(std::max(earliest, last_before)),
                                       std::min(samples.size(), std::max(latest, first_after)));
    if (!reached || *reached == 0) {
        return std::nullopt;
    }
    return MidCrossing{*reached, edge.crossing_before(*reached, 0.5)};
}

double plain_onset_s(Samples samples, EdgeLevels levels, MidCrossing mid, std::size_t earliest)
{
    const Edge edge(samples, levels);
    const std::size_t i30 = edge.last_upward(mid.after, 0.3, earliest);
    const std::size_t i10 = edge.last_upward(i30, 0.1, earliest);
    const double t30 = i30 > earliest ? edge.crossing_before(i30, 0.3) : edge.time(i30);
    const double t10 = i10 > earliest ? edge.crossing_before(i10, 0.1) : edge.time(i10);
    return 1.5 * t10 - 0.5 * t30;
}

namespace {

using Point = LocalCurve::Point;

constexpr double kFoot = 0.03;    // fractions below lie before the corner, or too near to it
constexpr double kShoulder = 0.5; // the foot's curve ends here
constexpr double kInconsistent = 2.5;

// One end of an edge, turned so that it rises from 0 and time runs onwards from the foot. The upper end of an edge is
// the foot of its mirror image.
struct Foot {
    std::vector<Point> points;   // past the corner, in time order
    std::optional<Point> before; // the last sample before them
    double rough_10_s = 0.0;
    double rough_30_s = 0.0;
};

Point turned(const Edge& edge, std::size_t i, bool mirrored)
{
    return mirrored ? Point{-edge.time(i), 1.0 - edge.fraction(i)} : Point{edge.time(i), edge.fraction(i)};
}

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

// Samples from the middle down to the foot (`mirrored`: from the middle up to the far level).
Foot collect_foot(const Edge& edge, std::size_t mid, std::size_t bound, double lowest, bool mirrored)
{
    Foot foot;
    // To the shoulder side: up to the first sample past it, one at least.
    const auto shoulder_side = [&](std::size_t k) { return mirrored ? mid - 1 - k : mid + k; };
    const auto foot_side = [&](std::size_t k) { return mirrored ? mid + k : mid - 1 - k; };
    const std::size_t to_foot = mirrored ? bound - mid : mid - bound;
    foot.points.push_back(turned(edge, shoulder_side(0), mirrored));
    for (std::size_t k = 0; k < to_foot; ++k) {
        const Point point = turned(edge, foot_side(k), mirrored);
        if (point.fraction <= lowest) {
            foot.before = point;
            break;
        }
        foot.points.push_back(point);
    }
    std::reverse(foot.points.begin(), foot.points.end());
    foot.rough_10_s = rough_crossing(foot, 0.1);
    foot.rough_30_s = rough_crossing(foot, 0.3);
    return foot;
}

struct FittedFoot {
    double time_10_s = 0.0;
    double time_30_s = 0.0;
    double onset_s = 0.0;
    LocalCurve::Spread onset_spread;
    LocalCurve::Spread spread_10;
    bool fitted = false;
};

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

// The sample before the foot belongs to the curve unless the curve, carried on to it, lies clearly below: then there is
// a corner between.
std::optional<LocalCurve> fit_foot(const Foot& foot, double edge_s, double noise)
{
    auto curve = LocalCurve::fit(foot.points, foot.rough_10_s, edge_s, noise);
    if (!foot.before) {
        return curve;
    }
    if (curve) {
        const double predicted = curve->at(foot.before->time_s);
        const double deviation = std::hypot(curve->deviation_at(foot.before->time_s), noise);
        if (foot.before->fraction - predicted > kInconsistent * deviation) {
            return curve;
        }
    }
    std::vector<Point> points{*foot.before};
    points.insert(points.end(), foot.points.begin(), foot.points.end());
    return LocalCurve::fit(points, foot.rough_10_s, edge_s, noise);
}

FittedFoot fitted_foot(const Foot& foot, double edge_s, double interval_s, double noise)
{
    const FittedFoot plain = plain_foot(foot, interval_s, noise);
    const auto curve = fit_foot(foot, edge_s, noise);
    if (!curve) {
        return plain;
    }
    const double reach = std::max(edge_s, 2.0 * interval_s);
    const auto t10 = curve->crossing(0.1, foot.rough_10_s, reach);
    const auto t30 = curve->crossing(0.3, foot.rough_30_s, reach);
    if (!t10 || !t30 || !(*t30 > *t10)) {
        return plain;
    }
    FittedFoot result;
    result.fitted = true;
    result.time_10_s = *t10;
    result.time_30_s = *t30;
    result.onset_s = 1.5 * *t10 - 0.5 * *t30;
    const std::array<LocalCurve::Weighted, 2> onset{{{*t10, 1.5}, {*t30, -0.5}}};
    const std::array<LocalCurve::Weighted, 1> at_10{{{*t10, 1.0}}};
    result.onset_spread = curve->spread_of(onset);
    result.spread_10 = curve->spread_of(at_10);
    return result;
}

Instant fitted_middle(const Edge& edge, MidCrossing mid, std::size_t earliest, std::size_t latest, double edge_s,
                      double interval_s, double noise)
{
    std::vector<Point> points;
    std::size_t first = mid.after;
    while (first > earliest && edge.fraction(first - 1) > 0.25) {
        --first;
    }
    first = first == mid.after && first > earliest ? first - 1 : first;
    for (std::size_t i = first; i < latest && (i <= mid.after || edge.fraction(i) < 0.75); ++i) {
        points.push_back(turned(edge, i, false));
    }
    Instant instant{mid.time_s, 0.0, interval_s / std::sqrt(12.0)};
    instant.noise_u_s = noise * edge_s / 0.8;
    const auto curve = LocalCurve::fit(points, mid.time_s, edge_s, noise);
    const auto crossing = curve ? curve->crossing(0.5, mid.time_s, edge_s) : std::nullopt;
    if (crossing) {
        const std::array<LocalCurve::Weighted, 1> at{{{*crossing, 1.0}}};
        const LocalCurve::Spread spread = curve->spread_of(at);
        instant = {*crossing, spread.noise_s, spread.bend_s};
    }
    return instant;
}

} // namespace

Transition measure_transition(Samples samples, EdgeLevels levels, MidCrossing mid, std::size_t earliest,
                              std::size_t latest, double noise_cmH2O)
{
    Transition transition;
    transition.from_cmH2O = levels.from_cmH2O;
    transition.to_cmH2O = levels.to_cmH2O;
    const Edge edge(samples, levels);
    const double noise = std::max(noise_cmH2O / std::abs(levels.step()), 2e-4);
    const double lowest = std::max(kFoot, 4.0 * noise);
    const Foot lower = collect_foot(edge, mid.after, earliest, lowest, false);
    const Foot upper = collect_foot(edge, mid.after, latest, lowest, true);
    const double interval_s = edge.time(mid.after) - edge.time(mid.after - 1);
    const bool seen_whole = upper.before || upper.points.front().fraction < 0.1;
    const double rough_s = -upper.rough_10_s - lower.rough_10_s;
    const double edge_s = std::max(seen_whole ? rough_s : 2.0 * (mid.time_s - lower.rough_10_s), interval_s);
    const FittedFoot onset = fitted_foot(lower, edge_s, interval_s, noise);
    transition.onset = {onset.onset_s, onset.onset_spread.noise_s, onset.onset_spread.bend_s};
    transition.mid = fitted_middle(edge, mid, earliest, latest, edge_s, interval_s, noise);
    if (seen_whole) {
        const FittedFoot end = fitted_foot(upper, edge_s, interval_s, noise);
        transition.time_10_90_s = -end.time_10_s - onset.time_10_s;
        transition.time_10_90_u_s = std::hypot(std::hypot(onset.spread_10.noise_s, onset.spread_10.bend_s),
                                               std::hypot(end.spread_10.noise_s, end.spread_10.bend_s));
        const auto begin = samples.time_s.begin();
        const auto past_10 = std::lower_bound(begin, samples.time_s.end(), onset.time_10_s);
        const auto past_90 = std::upper_bound(past_10, samples.time_s.end(), -end.time_10_s);
        transition.samples_10_90 = static_cast<std::size_t>(past_90 - past_10);
    }
    return transition;
}

} // namespace zeroline::signal
