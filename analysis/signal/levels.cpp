#include "analysis/signal/levels.hpp"

#include "analysis/signal/statistics.hpp"
#include "analysis/signal/thinning.hpp"

#include <algorithm>
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

// Twice the area under the straight lines between samples [first, last].
double twice_area(Samples samples, std::size_t first, std::size_t last)
{
    const double* time = samples.time_s.data() + first;
    const double* pressure = samples.pressure_cmH2O.data() + first;
    return sum_over(last - first,
                    [=](std::size_t i) { return (time[i + 1] - time[i]) * (pressure[i + 1] + pressure[i]); });
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
        const Line line = fit_line(part.time_s, part.pressure_cmH2O).value_or(Line{});
        for (std::size_t i = 0; i < part.size(); ++i) {
            scatter.left.push_back(part.pressure_cmH2O[i] - line.at(part.time_s[i]));
        }
    }
    return scatter;
}

} // namespace

SampleWindow samples_between(Samples samples, double from_s, double to_s)
{
    const auto& time = samples.time_s;
    const auto first = std::lower_bound(time.begin(), time.end(), from_s);
    const auto last = std::upper_bound(first, time.end(), to_s);
    return {static_cast<std::size_t>(first - time.begin()), static_cast<std::size_t>(last - time.begin())};
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
    const Line line = fit_line(window.time_s, window.pressure_cmH2O).value_or(Line{});
    fit.slope_cmH2O_per_s = line.slope;
    fit.ripple_cmH2O = line.deviation;
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
