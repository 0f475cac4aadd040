#include "analysis/signal/levels.hpp"

#include "analysis/signal/least_squares.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/signal/thinning.hpp"

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

// The least-squares line of a window and what it leaves, from sums about the first sample.
struct LineOfWindow {
    double slope_per_s = 0.0;
    double mean_s = 0.0;
    double mean_cmH2O = 0.0;
    double deviation_cmH2O = 0.0; // n - 2
    [[nodiscard]] double at(double time_s) const noexcept { return mean_cmH2O + slope_per_s * (time_s - mean_s); }
};

LineOfWindow line_of(Samples window)
{
    const double start_s = window.time_s.front();
    const double level = window.pressure_cmH2O.front();
    std::array<double, 4> t{}, p{}, tt{}, tp{}, pp{};
    const auto take = [&](std::size_t i, std::size_t k) {
        const double time = window.time_s[i] - start_s;
        const double off = window.pressure_cmH2O[i] - level;
        t[k] += time;
        p[k] += off;
        tt[k] += time * time;
        tp[k] += time * off;
        pp[k] += off * off;
    };
    std::size_t i = 0;
    for (; i + 4 <= window.size(); i += 4) {
        for (std::size_t k = 0; k < 4; ++k) {
            take(i + k, k);
        }
    }
    for (; i < window.size(); ++i) {
        take(i, 0);
    }
    const auto all = [](const std::array<double, 4>& lane) { return (lane[0] + lane[1]) + (lane[2] + lane[3]); };
    const auto n = static_cast<double>(window.size());
    const double squares = all(tt) - all(t) * all(t) / n;
    const double products = all(tp) - all(t) * all(p) / n;
    LineOfWindow line;
    line.slope_per_s = products / squares;
    line.mean_s = start_s + all(t) / n;
    line.mean_cmH2O = level + all(p) / n;
    const double left = all(pp) - all(p) * all(p) / n - line.slope_per_s * products;
    line.deviation_cmH2O = std::sqrt(std::max(0.0, left) / (n - 2.0));
    return line;
}

// What straight lines through parts of a window leave of the means of neighbours: as many tell how long noise
// remembers. A pressure that still bends (a settling edge, the foot of the next) is no noise: about one line it would
// pass for noise with a long memory.
struct Scatter {
    std::vector<double> left;
    std::size_t parameters = 0;
};

Scatter scatter_about_parts(Samples window)
{
    constexpr std::size_t kMeans = 128;
    constexpr std::size_t kMeansAPart = 12;
    constexpr std::size_t kMostParts = 5;
    const OwnedSamples thinned = thinned_to(window, kMeans);
    const std::size_t count = thinned.size();
    const std::size_t parts = std::clamp<std::size_t>(count / kMeansAPart, 1, kMostParts);
    Scatter scatter{{}, 2 * parts};
    scatter.left.reserve(count);
    for (std::size_t k = 0; k < parts; ++k) {
        const Samples part = thinned.view().part(k * count / parts, (k + 1) * count / parts);
        const LineOfWindow line = line_of(part);
        for (std::size_t i = 0; i < part.size(); ++i) {
            scatter.left.push_back(part.pressure_cmH2O[i] - line.at(part.time_s[i]));
        }
    }
    return scatter;
}

// First of the times from `first` on that is not below (`above`: that is above) a time. Samples come evenly: looked for
// where it should be.
std::size_t place_of(std::span<const double> time_s, double at_s, bool above)
{
    const auto before = [&](double time) { return above ? time <= at_s : time < at_s; };
    if (time_s.empty() || !before(time_s.front())) {
        return 0;
    }
    if (before(time_s.back())) {
        return time_s.size();
    }
    constexpr std::size_t kAbout = 8; // samples on each side
    const double share = (at_s - time_s.front()) / (time_s.back() - time_s.front());
    const auto guess = static_cast<std::size_t>(share * static_cast<double>(time_s.size() - 1));
    std::size_t low = guess - std::min(guess, kAbout);
    std::size_t high = std::min(time_s.size() - 1, guess + kAbout);
    if (!before(time_s[low]) || before(time_s[high])) {
        low = 0;
        high = time_s.size() - 1;
    }
    const auto part = time_s.subspan(low, high - low);
    return low + static_cast<std::size_t>(std::partition_point(part.begin(), part.end(), before) - part.begin());
}

} // namespace

SampleWindow samples_between(Samples samples, double from_s, double to_s)
{
    return {place_of(samples.time_s, from_s, false), place_of(samples.time_s, to_s, true)};
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
    const LineOfWindow line = line_of(window);
    fit.slope_cmH2O_per_s = line.slope_per_s;
    fit.ripple_cmH2O = line.deviation_cmH2O;
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
    const SampleWindow bounds = samples_between(samples, phase.from_s, phase.to_s);
    if (bounds.size() == 0) {
        return std::nullopt;
    }
    return samples.pressure_cmH2O[extreme_of(samples, blocks, bounds, sign)];
}

} // namespace zeroline::signal
