#include "analysis/signal/edge.hpp"

#include "analysis/signal/foot.hpp"
#include "analysis/signal/kinked_curve.hpp"
#include "analysis/signal/local_curve.hpp"
#include "analysis/signal/misfit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kSustained_s = 0.02;
constexpr std::size_t kSustainedSamples = 3;
constexpr double kLeastNoise = 2e-4; // of the step: below this the curve's own form limits

// Time at which the straight line between samples i - 1 and i crosses a fraction.
double crossing_before(const EdgeSamples& edge, std::size_t i, double limit)
{
    const double below = edge.fraction(i - 1);
    const double above = edge.fraction(i);
    if (!(above > below)) {
        return edge.time(i);
    }
    const double share = std::clamp((limit - below) / (above - below), 0.0, 1.0);
    return edge.time(i - 1) + share * (edge.time(i) - edge.time(i - 1));
}

bool long_enough(const EdgeSamples& edge, std::size_t first, std::size_t last)
{
    return last - first >= kSustainedSamples && edge.time(last - 1) - edge.time(first) >= kSustained_s - 1e-9;
}

// One past the last sample of the last sustained stay before the middle, at or before `from`.
std::optional<std::size_t> end_of_stay(const EdgeSamples& edge, std::size_t from, std::size_t earliest)
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

std::optional<std::size_t> start_of_stay(const EdgeSamples& edge, std::size_t from)
{
    std::size_t first = from;
    for (std::size_t i = from; i < edge.size(); ++i) {
        if (!edge.beyond(i, 0.5)) {
            first = i + 1;
        } else if (long_enough(edge, first, i + 1)) {
            return first;
        }
    }
    return std::nullopt;
}

// The part of an edge about its middle: samples [first, last).
struct MiddlePart {
    std::size_t first = 0;
    std::size_t last = 0;
};

MiddlePart middle_part(const EdgeSamples& edge, std::size_t mid)
{
    MiddlePart part{mid, mid};
    while (part.first > 0 && edge.fraction(part.first - 1) > 0.25) {
        --part.first;
    }
    part.first -= part.first == mid && mid > 0 ? 1 : 0;
    while (part.last < edge.size() && (part.last == mid || edge.fraction(part.last) < 0.75)) {
        ++part.last;
    }
    return part;
}

std::optional<Instant> fitted_middle(const EdgeSamples& edge, MidCrossing mid, double edge_s, double noise)
{
    const MiddlePart part = middle_part(edge, mid.after);
    std::vector<LocalCurve::Point> points;
    for (std::size_t i = part.first; i < part.last; ++i) {
        points.push_back(edge.point(i));
    }
    const double centre_s = (points.front().time_s + points.back().time_s) / 2.0;
    const auto curve = LocalCurve::fit(points, centre_s, edge_s, noise);
    const auto crossing = curve ? curve->crossing(0.5, mid.time_s, edge_s) : std::nullopt;
    if (!crossing) {
        return std::nullopt;
    }
    const std::array<LocalCurve::Weighted, 1> at{{{*crossing, 1.0}}};
    const LocalCurve::Spread spread = curve->spread_of(at);
    const Misfit::Correction correction = misfit_of(*curve, points, noise).about(0.5);
    const double slope = std::max(curve->slope_at(*crossing), kLeastSlope / edge_s);
    return Instant{*crossing - correction.value / slope, spread.noise_s,
                   std::hypot(spread.bend_s, std::sqrt(correction.variance) / slope)};
}

// First sample at or after a time.
std::size_t first_at(const EdgeSamples& edge, std::size_t near, double time_s)
{
    std::size_t i = near;
    while (i > 1 && edge.time(i - 1) >= time_s) {
        --i;
    }
    while (i + 1 < edge.size() && edge.time(i) < time_s) {
        ++i;
    }
    return i;
}

// Noise shifts a sustained crossing: it waits for the noise to stay on one side.
MidCrossing freed_of_noise(const EdgeSamples& edge, MidCrossing mid, double noise)
{
    const MiddlePart part = middle_part(edge, mid.after);
    const auto steps = static_cast<double>(part.last - part.first);
    if (noise * steps < 0.15) {
        return mid;
    }
    const double half_s = edge.time(part.last - 1) - edge.time(part.first);
    if (const auto fitted = fitted_middle(edge, mid, std::max(1.6 * half_s, 1e-6), noise)) {
        return {first_at(edge, mid.after, fitted->time_s), fitted->time_s};
    }
    return mid;
}

} // namespace

std::optional<MidCrossing> find_mid_crossing(Samples samples, EdgeLevels levels, std::size_t last_before,
                                             double noise_cmH2O)
{
    if (levels.step() == 0.0 || samples.size() < 2) {
        return std::nullopt;
    }
    const EdgeSamples edge(samples, levels);
    const auto left = end_of_stay(edge, std::min(last_before, samples.size() - 1), 0);
    const auto reached = start_of_stay(edge, left.value_or(last_before));
    if (!reached || *reached == 0) {
        return std::nullopt;
    }
    const MidCrossing mid{*reached, crossing_before(edge, *reached, 0.5)};
    return freed_of_noise(edge, mid, std::max(noise_cmH2O / std::abs(levels.step()), kLeastNoise));
}

namespace {

// What both passes need of an edge: its samples, sorted by side, and its rough size.
struct Outline {
    EdgeSamples edge;
    Foot lower;
    Foot upper;
    double noise = 0.0; // fraction of the step
    double interval_s = 0.0;
    double edge_s = 0.0;
    bool seen_whole = false;
};

Outline outline_of(Samples samples, EdgeLevels levels, MidCrossing mid, double noise_cmH2O)
{
    Outline outline{EdgeSamples(samples, levels), {}, {}};
    outline.noise = std::max(noise_cmH2O / std::abs(levels.step()), kLeastNoise);
    outline.lower = collect_foot(outline.edge, mid.after, false, outline.noise);
    outline.upper = collect_foot(outline.edge, mid.after, true, outline.noise);
    outline.interval_s = samples.time_s[mid.after] - samples.time_s[mid.after - 1];
    outline.seen_whole = outline.upper.before || outline.upper.points.front().fraction < 0.1;
    const double rough_s = -outline.upper.rough_10_s - outline.lower.rough_10_s;
    const double half_s = 2.0 * (mid.time_s - outline.lower.rough_10_s);
    outline.edge_s = std::max(outline.seen_whole ? rough_s : half_s, outline.interval_s);
    return outline;
}

constexpr double kBeforeFoot = 1.2; // 10-90 % times before the middle that tell what the edge leaves from
constexpr double kShoulder = 0.7;
constexpr double kSparse = 5.5; // sample intervals: a faster edge has too few samples for a curve to be of use
constexpr std::size_t kMostGroups = 240;

// The onset from a curve through the foot and what precedes it; none where there are too few samples.
std::optional<FittedFoot> kinked_foot(const Outline& outline, MidCrossing mid)
{
    std::size_t first = mid.after;
    const double earliest_s = outline.lower.rough_10_s - kBeforeFoot * outline.edge_s;
    while (first > 0 && outline.edge.time(first - 1) >= earliest_s) {
        --first;
    }
    std::size_t last = mid.after + 1;
    while (last < outline.edge.size() && outline.edge.fraction(last - 1) < kShoulder) {
        ++last;
    }
    std::vector<LocalCurve::Point> points;
    for (std::size_t i = first; i < last; ++i) {
        points.push_back(outline.edge.point(i));
    }
    return KinkedCurve::onset(grouped(points, kMostGroups), outline.edge_s, outline.noise);
}

FittedFoot lower_foot(const Outline& outline, MidCrossing mid)
{
    const auto kinked = outline.edge_s < kSparse * outline.interval_s ? std::nullopt : kinked_foot(outline, mid);
    return kinked ? *kinked : fit_foot(outline.lower, outline.edge_s, outline.interval_s, outline.noise);
}

std::size_t samples_from_to(Samples samples, double from_s, double to_s)
{
    const auto first = std::lower_bound(samples.time_s.begin(), samples.time_s.end(), from_s);
    const auto last = std::upper_bound(first, samples.time_s.end(), to_s);
    return static_cast<std::size_t>(last - first);
}

} // namespace

double onset_of(Samples samples, EdgeLevels levels, MidCrossing mid, double noise_cmH2O)
{
    const Outline outline = outline_of(samples, levels, mid, noise_cmH2O);
    return fit_foot(outline.lower, outline.edge_s, outline.interval_s, outline.noise).onset_s;
}

Transition measure_transition(Samples samples, EdgeLevels levels, MidCrossing mid, double noise_cmH2O)
{
    const Outline outline = outline_of(samples, levels, mid, noise_cmH2O);
    const auto fitted = [&](const Foot& foot) {
        return fit_foot(foot, outline.edge_s, outline.interval_s, outline.noise);
    };
    const FittedFoot onset = lower_foot(outline, mid);
    Transition transition;
    transition.from_cmH2O = levels.from_cmH2O;
    transition.to_cmH2O = levels.to_cmH2O;
    transition.onset = {onset.onset_s, onset.onset_spread.noise_s, onset.onset_spread.bend_s};
    transition.mid =
        fitted_middle(outline.edge, mid, outline.edge_s, outline.noise)
            .value_or(Instant{mid.time_s, outline.noise * outline.edge_s / 0.8, outline.interval_s / std::sqrt(12.0)});
    if (outline.seen_whole) {
        const FittedFoot end = fitted(outline.upper);
        transition.time_10_90_s = -end.time_10_s - onset.time_10_s;
        transition.time_10_90_u_s = std::hypot(std::hypot(onset.spread_10.noise_s, onset.spread_10.bend_s),
                                               std::hypot(end.spread_10.noise_s, end.spread_10.bend_s));
        transition.samples_10_90 = samples_from_to(samples, onset.time_10_s, -end.time_10_s);
    }
    return transition;
}

} // namespace zeroline::signal
