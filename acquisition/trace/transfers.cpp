#include "acquisition/trace/transfers.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace zeroline::trace {

namespace {

// Of the beat's period; half is the border to the next beat.
constexpr double kClearlyOn = 0.3;

double rounded_quantile(std::vector<double>& values, double share)
{
    const auto place =
        values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1) + 0.5);
    std::nth_element(values.begin(), place, values.end());
    return *place;
}

struct Sums {
    double w = 0.0, x = 0.0, y = 0.0;
    double xx = 0.0, xy = 0.0;
};

/// Weighted least squares in two passes, so that long series keep their digits.
template <class Weight> StampLine weighted_line(std::span<const StampPoint> points, Weight&& weight)
{
    Sums sums;
    for (const auto& p : points) {
        const double w = weight(p);
        sums.w += w;
        sums.x += w * (p.index - points.front().index);
        sums.y += w * (p.stamp_s - points.front().stamp_s);
    }
    const double x = points.front().index + sums.x / sums.w;
    const double y = points.front().stamp_s + sums.y / sums.w;
    for (const auto& p : points) {
        const double w = weight(p);
        sums.xx += w * (p.index - x) * (p.index - x);
        sums.xy += w * (p.index - x) * (p.stamp_s - y);
    }
    const double slope = sums.xy / sums.xx;
    return {slope, y - slope * x};
}

double scatter_about(std::span<const StampPoint> points, const StampLine& line)
{
    constexpr std::size_t enough = 20'000;
    const std::size_t step = points.size() / enough + 1;
    std::vector<double> residuals;
    for (std::size_t i = 0; i < points.size(); i += step) {
        residuals.push_back(points[i].stamp_s - line.at(points[i].index));
    }
    return early_scatter(residuals);
}

/// The tightest pair for a trial interval: the reading that must not lie later, and the one that must not lie earlier.
struct Tightest {
    double room_s = 0.0; ///< negative: this interval is impossible
    StampPoint ceiling, floor;
};

Tightest tightest_pair(std::span<const Transfer> transfers, double interval_s)
{
    const auto& origin = transfers.front();
    double lowest_ceiling_s = std::numeric_limits<double>::max();
    double highest_floor_s = std::numeric_limits<double>::lowest();
    Tightest found;
    for (const auto& t : transfers) {
        const double stamp_s = t.stamp_s - origin.stamp_s;
        const double ceiling_s = stamp_s - interval_s * (t.last - origin.last);
        const double floor_s = stamp_s - interval_s * (t.next - origin.last);
        if (ceiling_s < lowest_ceiling_s) {
            lowest_ceiling_s = ceiling_s;
            found.ceiling = {t.last, t.stamp_s};
        }
        if (floor_s > highest_floor_s) {
            highest_floor_s = floor_s;
            found.floor = {t.next, t.stamp_s};
        }
    }
    found.room_s = lowest_ceiling_s - highest_floor_s;
    return found;
}

/// Walks from an impossible interval towards the possible ones, by the pair that forbids each (Newton's method on a
/// concave function: it never steps too far). `side` is +1 coming from above, -1 from below.
std::optional<double> edge_of_possible(std::span<const Transfer> transfers, double from_s, double slack_s, double side)
{
    constexpr int most_steps = 100;
    double interval_s = from_s;
    for (int step = 0; step < most_steps; ++step) {
        const auto pair = tightest_pair(transfers, interval_s);
        const double room_s = pair.room_s + 2.0 * slack_s;
        const double run = pair.ceiling.index - pair.floor.index;
        if (room_s >= -1e-12) {
            return interval_s;
        }
        if (run * side <= 0.0) {
            return std::nullopt;
        }
        const double next_s = (pair.ceiling.stamp_s - pair.floor.stamp_s + 2.0 * slack_s) / run;
        if (!((interval_s - next_s) * side > 0.0)) {
            return interval_s;
        }
        interval_s = next_s;
    }
    return std::nullopt;
}

double median_step_s(std::span<const Transfer> transfers)
{
    std::vector<double> steps;
    for (std::size_t i = 0; i + 1 < transfers.size(); ++i) {
        steps.push_back(transfers[i + 1].stamp_s - transfers[i].stamp_s);
    }
    return rounded_quantile(steps, 0.5);
}

/// Numbers the beats. Where a transfer brings several readings, how many they are tells the time that passed better
/// than stamps that may be late.
std::vector<StampPoint> beats_counted(std::span<const Transfer> transfers, double period_s, double interval_s,
                                      double reading_s)
{
    const bool by_readings = 2.0 * reading_s <= period_s;
    std::vector<StampPoint> beats{{0.0, transfers.front().stamp_s}};
    for (std::size_t i = 1; i < transfers.size(); ++i) {
        const double passed_s = by_readings ? interval_s * (transfers[i].last - transfers[i - 1].last)
                                            : transfers[i].stamp_s - transfers[i - 1].stamp_s;
        beats.push_back({beats.back().index + std::round(passed_s / period_s), transfers[i].stamp_s});
    }
    return beats;
}

/// A transfer clearly off every beat is left out, and so are two that claim the same one: the first was held up there.
std::vector<Transfer> set_to_beats(std::span<const Transfer> transfers, const StampLine& line)
{
    std::vector<double> beats;
    for (const auto& t : transfers) {
        beats.push_back(std::round((t.stamp_s - line.first_s) / line.interval_s));
    }
    std::vector<Transfer> regular;
    for (std::size_t i = 0; i < transfers.size(); ++i) {
        const bool shared = (i > 0 && beats[i] == beats[i - 1]) || (i + 1 < beats.size() && beats[i] == beats[i + 1]);
        const double beat_s = line.at(beats[i]);
        if (!shared && std::fabs(transfers[i].stamp_s - beat_s) <= kClearlyOn * line.interval_s) {
            regular.push_back({beat_s, transfers[i].last, transfers[i].next});
        }
    }
    return regular;
}

} // namespace

double early_scatter(std::vector<double>& residuals)
{
    const double middle = rounded_quantile(residuals, 0.5);
    return middle - rounded_quantile(residuals, 0.16);
}

StampLine robust_line(std::span<const StampPoint> points)
{
    constexpr int rounds = 6;
    constexpr double far = 3.0;
    StampLine line = weighted_line(points, [](const StampPoint&) { return 1.0; });
    for (int round = 0; round < rounds; ++round) {
        const double limit_s = far * std::max(scatter_about(points, line), 1e-9);
        const StampLine before = line;
        line = weighted_line(points, [&](const StampPoint& p) {
            const double off_s = std::fabs(p.stamp_s - before.at(p.index));
            return off_s <= limit_s ? 1.0 : limit_s / off_s;
        });
    }
    return line;
}

std::optional<IntervalBounds> interval_bounds(std::span<const Transfer> transfers, double roughly_s, double slack_s)
{
    constexpr double wide = 0.1;
    const auto high_s = edge_of_possible(transfers, (1.0 + wide) * roughly_s, slack_s, +1.0);
    const auto low_s = high_s ? edge_of_possible(transfers, (1.0 - wide) * roughly_s, slack_s, -1.0) : std::nullopt;
    if (!low_s || *low_s > *high_s) {
        return std::nullopt;
    }
    return IntervalBounds{*low_s, *high_s};
}

std::optional<RegularBeat> on_a_regular_beat(std::span<const Transfer> transfers, double interval_s, double reading_s)
{
    constexpr double most_left_out = 0.1;
    const double period_s = transfers.size() < 3 ? 0.0 : median_step_s(transfers);
    if (!(period_s > 0.0)) {
        return std::nullopt;
    }
    const auto beats = beats_counted(transfers, period_s, interval_s, reading_s);
    if (!(beats.back().index > 0.0)) {
        return std::nullopt;
    }
    const auto line = robust_line(beats);
    auto regular = set_to_beats(transfers, line);
    const bool enough =
        static_cast<double>(transfers.size() - regular.size()) <= most_left_out * static_cast<double>(transfers.size());
    if (!enough || regular.size() < 3) {
        return std::nullopt;
    }
    return RegularBeat{std::move(regular), scatter_about(beats, line)};
}

} // namespace zeroline::trace
