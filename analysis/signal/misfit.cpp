#include "analysis/signal/misfit.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::signal {
namespace {

constexpr double kParameters = 6.0; // that a curve takes from the samples, its bends being held
constexpr std::size_t kFewest = 12; // samples: fewer are followed by any curve
constexpr std::ptrdiff_t kNear = 5;
constexpr double kNearest = 0.03, kFarthest = 0.08; // of the step
constexpr double kRings = 0.02;                     // of the step, rms: no shape of an edge, and a crossing of its own
constexpr double kByChance = 1.0;                   // standard deviations of a variance that are no sign of anything

} // namespace

void Misfit::add(double at, double left, double weight) { all_.push_back({at, left, weight}); }

double Misfit::beyond_noise() const
{
    if (all_.size() < kFewest) {
        return 0.0;
    }
    double squares = 0.0;
    double weights = 0.0;
    for (const Left& one : all_) {
        squares += one.weight * one.left * one.left;
        weights += one.weight;
    }
    const auto count = static_cast<double>(all_.size());
    const double dof = count - kParameters;
    const double variance = squares / dof; // of a single sample
    const double by_chance = noise_ * noise_ * (1.0 + kByChance * std::sqrt(2.0 / dof));
    // What is wrong with a curve does not average out within a group of samples, as their noise does.
    const double beyond = std::max(0.0, variance - by_chance) * count / weights;
    return beyond < kRings * kRings ? beyond : 0.0;
}

// How far from a crossing samples may tell of it: as near as a few of them lie, for what a curve leaves soon changes
// sign.
double Misfit::reach_about(double at) const
{
    std::vector<double> distances;
    for (const Left& one : all_) {
        distances.push_back(std::abs(one.at - at));
    }
    const auto last = distances.begin() + kNear;
    std::nth_element(distances.begin(), last, distances.end());
    return std::clamp(*last, kNearest, kFarthest);
}

Misfit::Correction Misfit::about(double at) const
{
    const double beyond = beyond_noise();
    if (beyond <= 0.0) {
        return {};
    }
    const double reach = reach_about(at);
    double sum = 0.0;
    double weights = 0.0;
    double squares = 0.0;
    for (const Left& one : all_) {
        const double near = std::max(0.0, 1.0 - std::abs(one.at - at) / reach);
        sum += near * one.weight * one.left;
        weights += near * one.weight;
        squares += near * near * one.weight;
    }
    if (weights <= 0.0) {
        return {0.0, beyond};
    }
    const double own = noise_ * noise_ * squares / (weights * weights);
    return {beyond / (beyond + own) * sum / weights, beyond * own / (beyond + own)};
}

Misfit misfit_of(const LocalCurve& curve, std::span<const LocalCurve::Point> points, double noise)
{
    Misfit misfit(noise);
    for (const LocalCurve::Point& point : points) {
        const double at = curve.at(point.time_s);
        misfit.add(at, point.fraction - at);
    }
    return misfit;
}

void correct(FittedFoot& foot, const Misfit& misfit, double slope_10, double slope_30, double edge_s)
{
    if (std::min(slope_10, slope_30) < kLeastSlope / edge_s) {
        return;
    }
    const Misfit::Correction at_10 = misfit.about(0.1);
    const Misfit::Correction at_30 = misfit.about(0.3);
    foot.time_10_s -= at_10.value / slope_10;
    foot.time_30_s -= at_30.value / slope_30;
    foot.onset_s -= 1.5 * at_10.value / slope_10 - 0.5 * at_30.value / slope_30;
    const double u_10_s = std::sqrt(at_10.variance) / slope_10;
    const double u_30_s = std::sqrt(at_30.variance) / slope_30;
    foot.spread_10.bend_s = std::hypot(foot.spread_10.bend_s, u_10_s);
    foot.onset_spread.bend_s = std::hypot(foot.onset_spread.bend_s, 1.5 * u_10_s, 0.5 * u_30_s);
}

} // namespace zeroline::signal
