#include "analysis/signal/changeover.hpp"

#include "analysis/signal/foot.hpp"
#include "analysis/signal/local_curve.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr double kBack = 1.6;          // 10-90 % times before the middle, at most
constexpr double kShoulder = 0.75;     // fraction at which the smooth part ends
constexpr std::size_t kTries = 48;     // candidates a round
constexpr std::size_t kContinuity = 3; // samples that the beginning at the level left counts for
constexpr double kUnmodelled = 0.02;   // of the oscillation's amplitude: what a steady one leaves on an edge
constexpr double kLeastNoise = 1e-3;

class Search {
public:
    Search(const OwnedSamples& left, const OwnedSamples& right, EdgeLevels levels, std::size_t mid, double noise)
        : left_(left.view(), levels), right_(right.view(), levels), mid_(mid), noise_(noise)
    {
        shoulder_ = mid;
        while (shoulder_ + 1 < right_.size() && right_.fraction(shoulder_) < kShoulder) {
            ++shoulder_;
        }
        const double rise_s = right_.time(shoulder_) - right_.time(mid > 0 ? mid - 1 : 0);
        edge_s_ = std::max(3.2 * rise_s, 1e-6);
        first_ = mid;
        while (first_ > 0 && right_.time(mid) - right_.time(first_ - 1) <= kBack * edge_s_) {
            --first_;
        }
        level_.assign(mid - first_ + 1, 0.0);
        for (std::size_t i = first_; i < mid; ++i) {
            const double off = left_.fraction(i) / noise_;
            level_[i - first_ + 1] = level_[i - first_] - 0.5 * off * off;
        }
    }

    // Number of the first sample of the smooth part.
    [[nodiscard]] std::size_t best() const
    {
        std::size_t low = first_;
        std::size_t high = mid_;
        std::size_t best = mid_;
        while (high > low) {
            const std::size_t step = std::max<std::size_t>(1, (high - low) / kTries);
            double most = -kFar;
            for (std::size_t at = low; at <= high; at += step) {
                if (const double likelihood = at_sample(at); likelihood > most) {
                    most = likelihood;
                    best = at;
                }
            }
            if (step == 1) {
                break;
            }
            low = std::max(low, best - std::min(best, step));
            high = std::min(high, best + step);
        }
        return best;
    }

private:
    [[nodiscard]] double at_sample(std::size_t at) const
    {
        // A pressure does not jump: the smooth part begins at the level left.
        const double start_s = at > 0 ? (right_.time(at - 1) + right_.time(at)) / 2.0 : right_.time(at);
        std::vector<LocalCurve::Point> points(kContinuity, {start_s, 0.0});
        for (std::size_t i = at; i <= shoulder_; ++i) {
            points.push_back(right_.point(i));
        }
        const double centre_s = (points.front().time_s + points.back().time_s) / 2.0;
        const auto curve = LocalCurve::fit(points, centre_s, edge_s_, noise_);
        return curve ? level_[at - first_] + curve->log_likelihood() : -kFar;
    }

    EdgeSamples left_;
    EdgeSamples right_;
    std::size_t mid_;
    std::size_t shoulder_ = 0;
    std::size_t first_ = 0;
    double noise_;
    double edge_s_ = 0.0;
    std::vector<double> level_; // log likelihood of staying at the level left up to each sample
};

} // namespace

OwnedSamples without_swing(Samples samples, const SteadyOscillation& swing)
{
    return cleared(samples, {swing, swing}, 0.0);
}

OwnedSamples cleared(Samples edge, const EdgeOscillations& swings, double changeover_s)
{
    OwnedSamples still{{edge.time_s.begin(), edge.time_s.end()},
                       {edge.pressure_cmH2O.begin(), edge.pressure_cmH2O.end()}};
    for (std::size_t i = 0; i < still.size(); ++i) {
        const double time = still.time_s[i];
        const auto& swing = time < changeover_s ? swings.before : swings.after;
        still.pressure_cmH2O[i] -= swing ? swing->at(time) : 0.0;
    }
    return still;
}

double changeover_time(Samples edge, const EdgeOscillations& swings, EdgeLevels levels, std::size_t last_before,
                       double noise_cmH2O)
{
    const double fallback = edge.time_s[std::min(last_before, edge.size() - 1)];
    // Beyond the middle the other side's oscillation is on: cleared of it throughout, the middle is where it belongs.
    const OwnedSamples left = cleared(edge, swings, kFar);
    const OwnedSamples right = cleared(edge, swings, -kFar);
    const auto mid = find_mid_crossing(right.view(), levels, last_before, noise_cmH2O);
    if (!mid) {
        return fallback;
    }
    const double swing = std::max(swings.before ? swings.before->amplitude_cmH2O() : 0.0,
                                  swings.after ? swings.after->amplitude_cmH2O() : 0.0);
    const double noise = std::hypot(noise_cmH2O, kUnmodelled * swing) / std::abs(levels.step());
    const std::size_t first = Search(left, right, levels, mid->after, std::max(noise, kLeastNoise)).best();
    return first > 0 ? (edge.time_s[first - 1] + edge.time_s[first]) / 2.0 : edge.time_s[first];
}

} // namespace zeroline::signal
