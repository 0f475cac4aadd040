#include "analysis/signal/shape.hpp"
#include "analysis/signal/spikes.hpp"

#include "analysis/signal/least_squares.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/signal/thinning.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace zeroline::signal {
namespace {

// Least squares of constant, slope and a sinusoid of the frequency at which a mains frequency shows.
std::optional<Hum> hum_at(Samples samples, double mains_hz, double seen_at_hz)
{
    const double start_s = samples.time_s.front();
    const double span_s = samples.time_s.back() - start_s;
    const double level = samples.pressure_cmH2O.front();
    LeastSquares<4> with;
    LeastSquares<2> without;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double angle = 2.0 * std::numbers::pi * seen_at_hz * (samples.time_s[i] - start_s);
        const double along = (samples.time_s[i] - start_s) / span_s - 0.5;
        const double value = samples.pressure_cmH2O[i] - level;
        with.add({1.0, along, std::sin(angle), std::cos(angle)}, value);
        without.add({1.0, along}, value);
    }
    if (!without.solve() || !with.solve()) {
        return std::nullopt;
    }
    const double free = static_cast<double>(samples.size()) - 4.0;
    const double share = without.left() > 0.0 ? std::clamp(1.0 - with.left() / without.left(), 0.0, 1.0) : 0.0;
    return Hum{mains_hz, seen_at_hz, std::hypot(with.solution()[2], with.solution()[3]), std::sqrt(with.left() / free),
               std::pow(1.0 - share, free / 2.0)};
}

} // namespace

std::optional<Hum> hum(Samples samples)
{
    if (samples.size() < 8 || samples.time_s.back() - samples.time_s.front() < 0.2) {
        return std::nullopt;
    }
    const double span_s = samples.time_s.back() - samples.time_s.front();
    const ClearSamples clear = without_spikes(samples);
    const double rate_hz = 1.0 / mean_interval_s(samples);
    std::optional<Hum> strongest;
    for (const double mains_hz : {50.0, 60.0}) {
        const double seen_hz = std::abs(mains_hz - std::round(mains_hz / rate_hz) * rate_hz);
        const bool at_an_end = seen_hz < 2.0 / span_s || rate_hz / 2.0 - seen_hz < 1.0 / span_s;
        const auto found =
            at_an_end || clear.view().size() < 6 ? std::nullopt : hum_at(clear.view(), mains_hz, seen_hz);
        if (found && (!strongest || found->amplitude_cmH2O > strongest->amplitude_cmH2O)) {
            strongest = found;
        }
    }
    return strongest;
}

double sample_noise(Samples samples)
{
    constexpr std::size_t kProbes = 4000;
    const std::size_t count = samples.size();
    if (count < 5) {
        return 0.0;
    }
    const std::size_t stride = std::max<std::size_t>(1, (count - 2) / kProbes);
    std::vector<double> bends;
    bends.reserve(kProbes + 2);
    for (std::size_t i = 1; i + 1 < count; i += stride) {
        const auto& p = samples.pressure_cmH2O;
        bends.push_back(std::abs(p[i - 1] - 2.0 * p[i] + p[i + 1]));
    }
    return noise_of_bends(std::move(bends));
}

double noise_of_bends(std::vector<double> bends_cmH2O)
{
    // The second difference of white noise has six times its variance; half of a normal's magnitudes lie below 0.6745.
    return median(std::move(bends_cmH2O)).value_or(0.0) / (0.6745 * std::sqrt(6.0));
}

} // namespace zeroline::signal
