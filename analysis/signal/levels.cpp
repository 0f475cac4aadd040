#include "analysis/signal/levels.hpp"

#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace zeroline::signal {
namespace {

double interpolated(Samples samples, std::size_t after, double time_s)
{
    const double t0 = samples.time_s[after - 1];
    const double t1 = samples.time_s[after];
    const double share = (time_s - t0) / (t1 - t0);
    return samples.pressure_cmH2O[after - 1] +
           share * (samples.pressure_cmH2O[after] - samples.pressure_cmH2O[after - 1]);
}

double value_at(Samples samples, double time_s)
{
    const auto after = std::lower_bound(samples.time_s.begin(), samples.time_s.end(), time_s) - samples.time_s.begin();
    if (after == 0) {
        return samples.pressure_cmH2O.front();
    }
    if (static_cast<std::size_t>(after) == samples.size()) {
        return samples.pressure_cmH2O.back();
    }
    return interpolated(samples, static_cast<std::size_t>(after), time_s);
}

// Twice the area under the straight lines between samples [first, last]. Four lanes: the order of the additions is
// fixed, the additions do not wait for each other.
double twice_area(Samples samples, std::size_t first, std::size_t last)
{
    const double* time = samples.time_s.data();
    const double* pressure = samples.pressure_cmH2O.data();
    std::array<double, 4> lane{};
    std::size_t i = first;
    for (; i + 4 <= last; i += 4) {
        for (std::size_t k = 0; k < 4; ++k) {
            lane[k] += (time[i + k + 1] - time[i + k]) * (pressure[i + k + 1] + pressure[i + k]);
        }
    }
    for (; i < last; ++i) {
        lane[0] += (time[i + 1] - time[i]) * (pressure[i + 1] + pressure[i]);
    }
    return (lane[0] + lane[1]) + (lane[2] + lane[3]);
}

struct LineSums {
    double t = 0.0, p = 0.0, tt = 0.0, tp = 0.0;
};

LineSums line_sums(Samples window, double centre_s, double level)
{
    std::array<LineSums, 2> lane{};
    const std::size_t count = window.size();
    const auto add = [&](LineSums& sums, std::size_t i) {
        const double t = window.time_s[i] - centre_s;
        const double p = window.pressure_cmH2O[i] - level;
        sums.t += t;
        sums.p += p;
        sums.tt += t * t;
        sums.tp += t * p;
    };
    std::size_t i = 0;
    for (; i + 2 <= count; i += 2) {
        add(lane[0], i);
        add(lane[1], i + 1);
    }
    if (i < count) {
        add(lane[0], i);
    }
    return {lane[0].t + lane[1].t, lane[0].p + lane[1].p, lane[0].tt + lane[1].tt, lane[0].tp + lane[1].tp};
}

std::vector<double> residuals_about(Samples window, double centre_s, double level, double slope)
{
    std::vector<double> left(window.size());
    for (std::size_t i = 0; i < window.size(); ++i) {
        left[i] = window.pressure_cmH2O[i] - level - slope * (window.time_s[i] - centre_s);
    }
    return left;
}

// What straight lines through parts of a window leave. A pressure that still bends (a settling edge, the foot of the
// next) is no noise: it would pass for noise with a long memory.
struct Scatter {
    std::vector<double> left;
    std::size_t parameters = 0;
};

Scatter scatter_about_parts(Samples window)
{
    constexpr std::size_t kSamplesAPart = 12;
    constexpr std::size_t kMostParts = 5;
    const std::size_t count = window.size();
    const std::size_t parts = std::clamp<std::size_t>(count / kSamplesAPart, 1, kMostParts);
    Scatter scatter{{}, 2 * parts};
    scatter.left.reserve(count);
    for (std::size_t k = 0; k < parts; ++k) {
        const Samples part = window.part(k * count / parts, (k + 1) * count / parts);
        const double centre_s = (part.time_s.front() + part.time_s.back()) / 2.0;
        const double level = part.pressure_cmH2O.front();
        const LineSums sums = line_sums(part, centre_s, level);
        const auto n = static_cast<double>(part.size());
        const double spread = sums.tt - sums.t * sums.t / n;
        const double slope = spread > 0.0 ? (sums.tp - sums.t * sums.p / n) / spread : 0.0;
        const auto left = residuals_about(part, centre_s, level + (sums.p - slope * sums.t) / n, slope);
        scatter.left.insert(scatter.left.end(), left.begin(), left.end());
    }
    return scatter;
}

} // namespace

SampleWindow samples_between(Samples samples, double from_s, double to_s)
{
    const auto begin = samples.time_s.begin();
    const auto first = std::lower_bound(begin, samples.time_s.end(), from_s);
    const auto last = std::upper_bound(first, samples.time_s.end(), to_s);
    return {static_cast<std::size_t>(first - begin), static_cast<std::size_t>(last - begin)};
}

double window_mean(Samples samples, double from_s, double to_s)
{
    if (samples.size() == 0) {
        return 0.0;
    }
    const SampleWindow window = samples_between(samples, from_s, to_s);
    if (window.first >= window.last || to_s <= from_s) {
        return value_at(samples, (from_s + to_s) / 2.0);
    }
    const double first_s = samples.time_s[window.first];
    const double last_s = samples.time_s[window.last - 1];
    double area = twice_area(samples, window.first, window.last - 1);
    // Beyond the outermost samples inside, their values are kept: the next sample may lie on an edge already.
    area += 2.0 * (first_s - from_s) * samples.pressure_cmH2O[window.first];
    area += 2.0 * (to_s - last_s) * samples.pressure_cmH2O[window.last - 1];
    return area / (2.0 * (to_s - from_s));
}

std::optional<WindowFit> fit_window(Samples samples, double from_s, double to_s, double noise_cmH2O)
{
    const SampleWindow bounds = samples_between(samples, from_s, to_s);
    if (bounds.size() == 0) {
        return std::nullopt;
    }
    const Samples window = samples.part(bounds.first, bounds.last);
    WindowFit fit;
    fit.level.value_cmH2O = window_mean(samples, from_s, to_s);
    fit.level.window_from_s = from_s;
    fit.level.window_to_s = to_s;
    fit.level.samples = bounds.size();
    const auto count = static_cast<double>(bounds.size());
    fit.level.noise_u_cmH2O = noise_cmH2O / std::sqrt(count);
    if (bounds.size() < 4) {
        return fit;
    }
    const double centre_s = (from_s + to_s) / 2.0;
    const LineSums sums = line_sums(window, centre_s, fit.level.value_cmH2O);
    const double spread = sums.tt - sums.t * sums.t / count;
    fit.slope_cmH2O_per_s = spread > 0.0 ? (sums.tp - sums.t * sums.p / count) / spread : 0.0;
    const double offset = (sums.p - fit.slope_cmH2O_per_s * sums.t) / count;
    const std::vector<double> left =
        residuals_about(window, centre_s, fit.level.value_cmH2O + offset, fit.slope_cmH2O_per_s);
    fit.ripple_cmH2O = std::sqrt(dot(left, left) / (count - 2.0));
    const Scatter scatter = scatter_about_parts(window);
    if (const auto uncertainty = uncertainty_of_mean(scatter.left, scatter.parameters)) {
        fit.level.noise_u_cmH2O = uncertainty->standard_uncertainty;
        fit.level.noise_dof = uncertainty->dof;
    }
    return fit;
}

Interval level_interval(PhaseKind kind, Interval phase) noexcept
{
    return kind == PhaseKind::pause ? phase.part(0.75, 1.0) : phase.part(0.5, 0.9);
}

namespace {

// The sample farthest to one side, blocks that cannot hold it skipped.
std::size_t extreme_of(Samples samples, const std::vector<Block>& blocks, SampleWindow bounds, int sign)
{
    const double direction = sign;
    std::size_t at = bounds.first;
    double extreme = direction * samples.pressure_cmH2O[at];
    for (std::size_t i = bounds.first; i < bounds.last; ++i) {
        const Block& block = blocks[i / kBlock];
        if (i % kBlock == 0 && std::max(direction * block.lowest_cmH2O, direction * block.highest_cmH2O) <= extreme) {
            i += kBlock - 1;
            continue;
        }
        const double value = direction * samples.pressure_cmH2O[i];
        if (value > extreme) {
            extreme = value;
            at = i;
        }
    }
    return at;
}

} // namespace

std::optional<double> peak_of(Samples samples, const std::vector<Block>& blocks, Interval phase, int sign)
{
    constexpr std::size_t kReach = 2;  // samples on each side, and all within ...
    constexpr double kReach_s = 0.008; // ... as much as a ring of 30 Hz stays near its peak
    const SampleWindow bounds = samples_between(samples, phase.from_s, phase.to_s);
    if (bounds.size() == 0) {
        return std::nullopt;
    }
    const std::size_t at = extreme_of(samples, blocks, bounds, sign);
    std::size_t first = at;
    std::size_t last = at + 1;
    while (first > bounds.first &&
           (at - first < kReach || samples.time_s[at] - samples.time_s[first - 1] <= kReach_s)) {
        --first;
    }
    while (last < bounds.last && (last - at <= kReach || samples.time_s[last] - samples.time_s[at] <= kReach_s)) {
        ++last;
    }
    const Samples about = samples.part(first, last);
    const auto parabola = fit_polynomial(about.time_s, about.pressure_cmH2O, 2);
    if (about.size() < 5 || !parabola) {
        return samples.pressure_cmH2O[at];
    }
    return parabola->at(samples.time_s[at]);
}

} // namespace zeroline::signal
