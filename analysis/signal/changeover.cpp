#include "analysis/signal/changeover.hpp"

#include "analysis/signal/foot.hpp"
#include "analysis/signal/local_curve.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <utility>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr double kBack = 2.5;          // 10-90 % times before the middle, at most
constexpr double kShoulder = 0.75;     // fraction at which the smooth part ends
constexpr std::size_t kTries = 48;     // candidates a round
constexpr std::size_t kContinuity = 3; // samples that the beginning at the level left counts for
constexpr double kUnmodelled = 0.005;  // of the oscillation's amplitude: what a steady one leaves on an edge
constexpr double kLeastNoise = 1e-3;
constexpr double kLevel = 0.7;    // 10-90 % times before the earliest changeover that tell the level left
constexpr double kLevelOff = 0.1; // of the step: what that level may be off by ...
constexpr double kSlopeOff = 0.1; // ... and drift in a 10-90 % time
constexpr double kSurely = 30.0;  // how much likelier a growing one must be, as a logarithm
constexpr double kFineGap = 0.04; // of the edge's time between two samples: where in it does not matter
constexpr std::size_t kChangeovers = 400;

// Sums of samples that tell how well a straight line near the level left explains them.
struct LineSums {
    double n = 0.0, x = 0.0, xx = 0.0, y = 0.0, xy = 0.0, yy = 0.0;

    void add(double at, double value, double weight = 1.0)
    {
        n += weight;
        x += weight * at;
        xx += weight * at * at;
        y += weight * value;
        xy += weight * at * value;
        yy += weight * value * value;
    }
    [[nodiscard]] LineSums plus(const LineSums& other, double sign) const
    {
        return {n + sign * other.n, x + sign * other.x,   xx + sign * other.xx,
                y + sign * other.y, xy + sign * other.xy, yy + sign * other.yy};
    }
};

struct HeldLine {
    double log_likelihood = 0.0;
    double level = 0.0;
    double slope = 0.0;
};

HeldLine line_through(const LineSums& sums, double noise)
{
    const double a = sums.n + noise * noise / (kLevelOff * kLevelOff);
    const double d = sums.xx + noise * noise / (kSlopeOff * kSlopeOff);
    const double determinant = a * d - sums.x * sums.x;
    HeldLine line;
    line.level = (d * sums.y - sums.x * sums.xy) / determinant;
    line.slope = (a * sums.xy - sums.x * sums.y) / determinant;
    line.log_likelihood =
        -0.5 * (sums.yy - line.level * sums.y - line.slope * sums.xy) / (noise * noise) - 0.5 * std::log(determinant);
    return line;
}

// A changeover before one sample, the smooth part from another on.
struct Candidate {
    double log_likelihood = -kFar;
    std::size_t changeover = 0;
    std::size_t rise = 0;
};

bool less_likely(const Candidate& a, const Candidate& b) { return a.log_likelihood < b.log_likelihood; }

double likelihood_of_best(const std::vector<Candidate>& candidates)
{
    return std::max_element(candidates.begin(), candidates.end(), less_likely)->log_likelihood;
}

// The samples that are looked at: the same whatever is tried on them, so that what they say can be compared.
struct Range {
    std::size_t mid = 0;
    std::size_t shoulder = 0;
    std::size_t first = 0;
    double edge_s = 0.0;
};

Range range_about(std::size_t mid, const OwnedSamples& right, EdgeLevels levels)
{
    const EdgeSamples edge(right.view(), levels);
    Range range{mid, mid, mid, 0.0};
    while (range.shoulder + 1 < edge.size() && edge.fraction(range.shoulder) < kShoulder) {
        ++range.shoulder;
    }
    range.edge_s = std::max(3.2 * (edge.time(range.shoulder) - edge.time(mid > 0 ? mid - 1 : 0)), 1e-6);
    while (range.first > 0 && edge.time(mid) - edge.time(range.first - 1) <= kBack * range.edge_s) {
        --range.first;
    }
    return range;
}

// The changeover need not be where the edge begins to rise: an edge with a slow start stays at the level left for a
// while after the oscillation has begun. Both places are looked for: the level left (not known to the noise, and it may
// drift), cleared of the one oscillation and then of the other, and the smooth part that begins on it.
class Search {
public:
    // `weights`: of the samples of the right.
    Search(const OwnedSamples& left, const OwnedSamples& right, std::vector<double> weights, EdgeLevels levels,
           const Range& range, double noise)
        : left_(left.view(), levels), right_(right.view(), levels), weights_(std::move(weights)), mid_(range.mid),
          shoulder_(range.shoulder), first_(range.first), noise_(noise), edge_s_(range.edge_s)
    {
        add_up();
    }

    // The first samples after the changeover that come into question.
    [[nodiscard]] std::vector<Candidate> candidates() const
    {
        std::size_t low = first_;
        std::size_t high = mid_;
        std::vector<Candidate> tried;
        while (true) {
            const std::size_t step = std::max<std::size_t>(1, (high - low) / kTries);
            tried.clear();
            for (std::size_t at = low; at <= high; at += step) {
                add_rise_at(at, tried);
            }
            const auto best = std::max_element(tried.begin(), tried.end(), less_likely);
            if (step == 1 || best == tried.end()) {
                return tried;
            }
            low = std::max(low, best->rise - std::min(best->rise, step));
            high = std::min(high, best->rise + step);
        }
    }

private:
    [[nodiscard]] double along(std::size_t i) const { return (right_.time(i) - right_.time(mid_)) / edge_s_; }

    void add_up()
    {
        LineSums left;
        std::size_t from = first_;
        while (from > 0 && right_.time(first_) - right_.time(from - 1) <= kLevel * edge_s_) {
            --from;
        }
        for (std::size_t i = from; i < first_; ++i) {
            left.add(along(i), left_.fraction(i));
        }
        LineSums right;
        for (std::size_t i = first_; i <= mid_; ++i) {
            before_.push_back(left);
            after_.push_back(right);
            left.add(along(i), left_.fraction(i));
            right.add(along(i), right_.fraction(i), weights_[i]);
        }
    }

    void add_rise_at(std::size_t at, std::vector<Candidate>& tried) const
    {
        HeldLine best{-kFar, 0.0, 0.0};
        const std::size_t before = tried.size();
        const std::size_t step = std::max<std::size_t>(1, (at - first_) / kChangeovers);
        for (std::size_t c = at;; c -= std::min(step, c - first_)) {
            const LineSums sums = before_[c - first_].plus(after_[at - first_].plus(after_[c - first_], -1.0), 1.0);
            const HeldLine line = line_through(sums, noise_);
            best = line.log_likelihood > best.log_likelihood ? line : best;
            tried.push_back({line.log_likelihood, c, at});
            if (c == first_) {
                break;
            }
        }
        const double smooth = smooth_from(at, best);
        for (std::size_t k = before; k < tried.size(); ++k) {
            tried[k].log_likelihood += smooth;
        }
    }

    // Log likelihood of the smooth part. A pressure does not jump: it begins at the level left, somewhere between two
    // samples.
    [[nodiscard]] double smooth_from(std::size_t at, const HeldLine& held) const
    {
        const double gap_s = at > 0 ? right_.time(at) - right_.time(at - 1) : 0.0;
        if (gap_s < kFineGap * edge_s_) {
            return smooth_from(at, right_.time(at) - gap_s / 2.0, held);
        }
        constexpr std::array kPlaces{0.05, 0.35, 0.65, 0.95};
        double most = -kFar;
        std::array<double, kPlaces.size()> all{};
        for (std::size_t k = 0; k < kPlaces.size(); ++k) {
            all[k] = smooth_from(at, right_.time(at) - kPlaces[k] * gap_s, held);
            most = std::max(most, all[k]);
        }
        double sum = 0.0;
        for (const double one : all) {
            sum += std::exp(one - most);
        }
        return most + std::log(sum / static_cast<double>(all.size()));
    }

    [[nodiscard]] double smooth_from(std::size_t at, double start_s, const HeldLine& held) const
    {
        const double level = held.level + held.slope * (start_s - right_.time(mid_)) / edge_s_;
        std::vector<LocalCurve::Point> points(kContinuity, {start_s, level, 1.0});
        for (std::size_t i = at; i <= shoulder_; ++i) {
            points.push_back({right_.time(i), right_.fraction(i), weights_[i]});
        }
        const double centre_s = (points.front().time_s + points.back().time_s) / 2.0;
        const auto curve = LocalCurve::fit(points, centre_s, edge_s_, noise_);
        return curve ? curve->log_likelihood() : -kFar;
    }

    EdgeSamples left_;
    EdgeSamples right_;
    std::vector<double> weights_;
    std::size_t mid_;
    std::size_t shoulder_;
    std::size_t first_;
    double noise_;
    double edge_s_;
    // Of the samples before each, from first_ on: cleared of the oscillation that ends, and of the one that begins.
    std::vector<LineSums> before_, after_;
};

// A few changeovers that stand for all: where their weights, added up in order of time, pass these shares.
std::vector<Changeover> standing_for(const std::vector<Candidate>& candidates, Samples edge)
{
    constexpr std::array kShares{0.08, 0.29, 0.5, 0.71, 0.92};
    const double most = likelihood_of_best(candidates);
    std::map<std::size_t, double> weights;
    double all = 0.0;
    for (const Candidate& one : candidates) {
        const double weight = std::exp(one.log_likelihood - most);
        weights[one.changeover] += weight;
        all += weight;
    }
    std::vector<Changeover> chosen;
    double sum = 0.0;
    std::size_t passed = 0;
    for (const auto& [at, weight] : weights) {
        sum += weight / all;
        std::size_t shares = 0;
        for (; passed < kShares.size() && sum >= kShares[passed]; ++passed) {
            ++shares;
        }
        if (shares > 0) {
            const double time_s = at > 0 ? (edge.time_s[at - 1] + edge.time_s[at]) / 2.0 : edge.time_s[at];
            chosen.push_back({time_s, static_cast<double>(shares) / static_cast<double>(kShares.size())});
        }
    }
    return chosen;
}

} // namespace

double EdgeOscillations::whole(double time_s, double changeover_s) const
{
    const auto& swing = time_s < changeover_s ? before : after;
    return swing ? swing->at(time_s) : 0.0;
}

std::optional<double> EdgeOscillations::grown(double time_s, double pressure_cmH2O, double changeover_s) const
{
    const double all = whole(time_s, changeover_s);
    if (time_s < changeover_s || !grows_between || std::abs(all) > 0.7 * std::abs(grows_between->step())) {
        return std::nullopt;
    }
    // The reading lies as far along between the levels with the whole of it added to the one that is reached.
    return (pressure_cmH2O - grows_between->from_cmH2O) / (grows_between->step() + all);
}

double EdgeOscillations::in_reading(double time_s, double pressure_cmH2O, double changeover_s) const
{
    const auto share = grown(time_s, pressure_cmH2O, changeover_s);
    return whole(time_s, changeover_s) * std::clamp(share.value_or(1.0), 0.0, 1.0);
}

double EdgeOscillations::noise_left(double time_s, double pressure_cmH2O, double changeover_s) const
{
    const auto share = grown(time_s, pressure_cmH2O, changeover_s);
    if (!share || *share <= 0.0 || *share >= 1.0) {
        return 1.0;
    }
    return grows_between->step() / (grows_between->step() + whole(time_s, changeover_s));
}

OwnedSamples without_swing(Samples samples, const SteadyOscillation& swing)
{
    return cleared(samples, {swing, swing}, 0.0);
}

OwnedSamples cleared(Samples edge, const EdgeOscillations& swings, double changeover_s)
{
    OwnedSamples still{{edge.time_s.begin(), edge.time_s.end()},
                       {edge.pressure_cmH2O.begin(), edge.pressure_cmH2O.end()}};
    for (std::size_t i = 0; i < still.size(); ++i) {
        still.pressure_cmH2O[i] -= swings.in_reading(still.time_s[i], still.pressure_cmH2O[i], changeover_s);
    }
    return still;
}

namespace {

// What is taken off in proportion to a reading takes the same share of its noise along: so scaled, samples would seem
// better explained by nothing but that, and the more so the more of them there are.
std::vector<double> weights_of(Samples edge, const EdgeOscillations& swings)
{
    std::vector<double> weights;
    weights.reserve(edge.size());
    for (std::size_t i = 0; i < edge.size(); ++i) {
        const double left = swings.noise_left(edge.time_s[i], edge.pressure_cmH2O[i], -kFar);
        weights.push_back(1.0 / (left * left));
    }
    return weights;
}

} // namespace

Changeovers changeovers(Samples edge, const EdgeOscillations& swings, EdgeLevels levels, std::size_t last_before,
                        double noise_cmH2O)
{
    const double swing = std::max(swings.before ? swings.before->amplitude_cmH2O() : 0.0,
                                  swings.after ? swings.after->amplitude_cmH2O() : 0.0);
    const double noise = std::max(std::hypot(noise_cmH2O, kUnmodelled * swing) / std::abs(levels.step()), kLeastNoise);
    const OwnedSamples left = cleared(edge, swings, kFar);
    // Beyond the middle the other side's oscillation is on: cleared of it throughout, the middle is where it belongs.
    const OwnedSamples right = cleared(edge, swings, -kFar);
    const auto mid = find_mid_crossing(right.view(), levels, last_before, noise_cmH2O);
    if (!mid) {
        return {false, {{edge.time_s[std::min(last_before, edge.size() - 1)], 1.0}}};
    }
    const Range range = range_about(mid->after, right, levels);
    const auto at_once = Search(left, right, weights_of(edge, swings), levels, range, noise).candidates();
    if (swings.after) {
        EdgeOscillations growing_swings = swings;
        growing_swings.grows_between = levels;
        const OwnedSamples grown = cleared(edge, growing_swings, -kFar);
        const auto growing = Search(left, grown, weights_of(edge, growing_swings), levels, range, noise).candidates();
        if (likelihood_of_best(growing) > likelihood_of_best(at_once) + kSurely) {
            return {true, standing_for(growing, edge)};
        }
    }
    return {false, standing_for(at_once, edge)};
}

double middle_of(const std::vector<Changeover>& changeovers)
{
    double sum = 0.0;
    for (const Changeover& one : changeovers) {
        sum += one.weight;
        if (sum > 0.5 - 1e-9) {
            return one.time_s;
        }
    }
    return changeovers.back().time_s;
}

Transition averaged(const std::vector<Transition>& transitions, const std::vector<Changeover>& changeovers)
{
    Transition mean = transitions[transitions.size() / 2];
    const auto average = [&](auto value_of, auto variance_of) {
        double value = 0.0;
        double squares = 0.0;
        double variance = 0.0;
        for (std::size_t i = 0; i < transitions.size(); ++i) {
            value += changeovers[i].weight * value_of(transitions[i]);
            squares += changeovers[i].weight * value_of(transitions[i]) * value_of(transitions[i]);
            variance += changeovers[i].weight * variance_of(transitions[i]);
        }
        return std::pair(value, std::sqrt(variance + std::max(0.0, squares - value * value)));
    };
    const auto square = [](double x) { return x * x; };
    const double origin_s = mean.onset.time_s; // squares of times since the trace began would drown what they differ by
    for (const auto instant : {&Transition::onset, &Transition::mid}) {
        const auto [time_s, u_s] = average([&](const Transition& one) { return (one.*instant).time_s - origin_s; },
                                           [&](const Transition& one) { return square((one.*instant).sampling_u_s); });
        const double noise = average([](const Transition&) { return 0.0; },
                                     [&](const Transition& one) { return square((one.*instant).noise_u_s); })
                                 .second;
        mean.*instant = {origin_s + time_s, noise, u_s, (mean.*instant).dof};
    }
    const bool whole = std::all_of(transitions.begin(), transitions.end(),
                                   [](const Transition& one) { return one.time_10_90_s.has_value(); });
    if (whole) {
        const auto [time_s, u_s] = average([](const Transition& one) { return *one.time_10_90_s; },
                                           [&](const Transition& one) { return square(one.time_10_90_u_s); });
        mean.time_10_90_s = time_s;
        mean.time_10_90_u_s = u_s;
    }
    return mean;
}

} // namespace zeroline::signal
