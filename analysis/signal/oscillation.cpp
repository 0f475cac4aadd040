#include "analysis/signal/oscillation.hpp"

#include "analysis/signal/oscillation_fit.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/signal/thinning.hpp"
#include "analysis/signal/turner.hpp"

#include <unsupported/Eigen/FFT>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <complex>
#include <limits>
#include <numbers>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kTwoPi = 2.0 * std::numbers::pi;
constexpr double kExplainsExpected = 0.25; // of the variance about a line, where one is prescribed
constexpr double kRoughly = 0.5;           // of that share, before frequency and drift are fitted
constexpr double kLeastGain = 40.0;   // variance explained over that left: noise alone gives 20 once in 10,000 phases
constexpr double kSteady = 0.5;       // envelope's change over the window, as a natural logarithm, at most
constexpr double kDampedLeaves = 0.8; // of what a steady one leaves: more is no proof of a decay
constexpr double kLeastPeriods = 0.5;
constexpr double kQuiet = 1.3;         // of the noise's variance: less holds no oscillation that stands clear ...
constexpr double kQuietExpected = 0.9; // ... nor a prescribed one, by more than the scatter of a hundred points

// The mean over a group of samples lowers a sinusoid by this.
double lowered_by(double frequency_hz, double group, double interval_s)
{
    const double angle = std::numbers::pi * frequency_hz * interval_s;
    const double one = std::sin(angle);
    return group > 1.0 && one > 1e-9 ? std::sin(group * angle) / (group * one) : 1.0;
}

struct Strongest {
    double hz = 0.0;
    double share = 0.0; // of the sum of squares that it explains, roughly
};

Strongest strongest_of(const OscillationWindow& window)
{
    const std::size_t size = std::bit_ceil(2 * window.size());
    std::vector<double> padded = window.left;
    padded.resize(size);
    std::vector<std::complex<double>> bins;
    Eigen::FFT<double> transform(Eigen::FFT<double>::impl_type(), Eigen::FFT<double>::HalfSpectrum);
    transform.fwd(bins, padded);
    const double point_s = window.span_s / static_cast<double>(window.size() - 1);
    const double bin_hz = 1.0 / (point_s * static_cast<double>(size));
    double best_hz = 0.0;
    double best_power = 0.0;
    for (std::size_t k = 1; k < bins.size(); ++k) {
        const double hz = bin_hz * static_cast<double>(k);
        const double power = std::norm(bins[k]);
        if (hz >= 0.5 * kLowestOscillation_hz && hz <= 1.1 * kHighestOscillation_hz && power > best_power) {
            best_power = power;
            best_hz = hz;
        }
    }
    const double all = 0.5 * static_cast<double>(window.size()) * window.about_line;
    return {best_hz, all > 0.0 ? best_power / all : 0.0};
}

bool stands_clear(double left, double about_line, std::size_t points, bool expected)
{
    const double explained = about_line - left;
    const double free = std::max(1.0, static_cast<double>(points) - 5.0);
    return explained >= (expected ? kExplainsExpected : kExplains) * about_line &&
           explained >= kLeastGain * left / free;
}

bool moves_by_noise_only(const OscillationWindow& window, const OscillationHint& hint)
{
    const double by_noise = hint.noise_cmH2O * hint.noise_cmH2O / window.group * static_cast<double>(window.size());
    return window.about_line < (hint.expected ? kQuietExpected : kQuiet) * by_noise;
}

// The frequency to begin with is the one that another phase shows, where that explains this one too; else the
// strongest.
std::optional<OscillationFit> best_fit(const OscillationWindow& window, const OscillationHint& hint)
{
    if (hint.known_hz) {
        return fit_at(window, *hint.known_hz);
    }
    if (hint.start_hz > 0.0) {
        const OscillationFit near = refined(window, hint.start_hz);
        if (near.solved && stands_clear(near.left, window.about_line, window.size(), false)) {
            return near;
        }
    }
    const Strongest strongest = strongest_of(window);
    const bool hopeless = strongest.share < kRoughly * (hint.expected ? kExplainsExpected : kExplains);
    return strongest.hz > 0.0 && !hopeless ? std::optional(refined(window, strongest.hz)) : std::nullopt;
}

bool decays(const OscillationWindow& window, const OscillationFit& fit, double left)
{
    const Decay decay = decay_of(window, fit);
    return decay.left < kDampedLeaves * left && std::abs(decay.over_half) > kSteady / 2.0;
}

std::optional<OscillationFit> steady_fit(const OscillationWindow& window, const OscillationHint& hint)
{
    const auto fit = best_fit(window, hint);
    if (!fit || !fit->solved || fit->frequency_hz < kLowestOscillation_hz ||
        fit->frequency_hz > kHighestOscillation_hz) {
        return std::nullopt;
    }
    const double periods = fit->frequency_hz * window.span_s;
    if (periods < kLeastPeriods * 0.97) {
        return std::nullopt;
    }
    const bool known = hint.known_hz.has_value();
    const double left = known ? std::min(fit->left, BesideSettling(window).left(fit->frequency_hz)) : fit->left;
    if (!stands_clear(left, window.about_line, window.size(), hint.expected)) {
        return std::nullopt;
    }
    // A frequency that is known need not be the best for this phase: that alone is no decay.
    const double steady = known ? std::min(left, refined(window, fit->frequency_hz).left) : fit->left;
    return decays(window, *fit, steady) ? std::nullopt : fit;
}

} // namespace

OwnedSamples without_swing(Samples samples, const SteadyOscillation& swing)
{
    OwnedSamples still{{samples.time_s.begin(), samples.time_s.end()},
                       {samples.pressure_cmH2O.begin(), samples.pressure_cmH2O.end()}};
    Turner turner(swing.frequency_hz);
    for (std::size_t i = 0; i < still.size(); ++i) {
        turner.turn_to(still.time_s[i] - swing.reference_s);
        still.pressure_cmH2O[i] -= swing.sine_cmH2O * turner.sine() + swing.cosine_cmH2O * turner.cosine();
    }
    return still;
}

double SteadyOscillation::amplitude_cmH2O() const { return std::hypot(sine_cmH2O, cosine_cmH2O); }

double SteadyOscillation::at(double time_s) const
{
    const double angle = kTwoPi * frequency_hz * (time_s - reference_s);
    return sine_cmH2O * std::sin(angle) + cosine_cmH2O * std::cos(angle);
}

std::optional<SteadyOscillation> find_oscillation(Samples samples, Interval phase, const OscillationHint& hint)
{
    const Interval part = phase.part(0.3, 0.9);
    const SampleWindow bounds = samples_between(samples, part.from_s, part.to_s);
    if (bounds.size() < kFewestSamples) {
        return std::nullopt;
    }
    const OscillationWindow window = window_of(samples.part(bounds.first, bounds.last));
    if (!hint.known_hz && moves_by_noise_only(window, hint)) {
        return std::nullopt;
    }
    const auto fit = steady_fit(window, hint);
    if (!fit) {
        return std::nullopt;
    }
    const double lowered = lowered_by(fit->frequency_hz, window.group, window.interval_s);
    SteadyOscillation found;
    found.frequency_hz = fit->frequency_hz;
    found.sine_cmH2O = fit->sine() / lowered;
    found.cosine_cmH2O = fit->cosine() / lowered;
    found.reference_s = window.middle_s;
    found.constant_cmH2O = fit->constant();
    const auto count = static_cast<double>(window.size());
    const double noise = std::sqrt(fit->left / std::max(1.0, count - 4.0));
    found.noise_cmH2O = noise * std::sqrt(window.group);
    found.constant_u_cmH2O = noise * fit->constant_factor;
    found.amplitude_u_cmH2O = noise * fit->amplitude_factor / lowered;
    // Least squares of a sinusoid in white noise (the Cramer-Rao bound for many samples).
    const double own_u_hz = std::sqrt(6.0 / count) * noise /
                            (std::numbers::pi * window.span_s * std::max(1e-9, std::hypot(fit->sine(), fit->cosine())));
    found.frequency_u_hz = hint.known_hz ? hint.known_u_hz : own_u_hz;
    return found;
}

bool would_show(Samples samples, Interval phase, double frequency_hz)
{
    constexpr double kSamplesAPeriod = 2.5;
    const Interval part = phase.part(0.3, 0.9);
    const SampleWindow bounds = samples_between(samples, part.from_s, part.to_s);
    return bounds.size() >= kFewestSamples && part.length_s() * frequency_hz >= kLeastPeriods &&
           frequency_hz * mean_interval_s(samples.part(bounds.first, bounds.last)) * kSamplesAPeriod <= 1.0;
}

std::optional<Interval> whole_periods(Interval phase, double frequency_hz)
{
    const Interval part = phase.part(0.3, 0.9);
    const double periods = std::floor(part.length_s() * frequency_hz + 1e-9);
    if (periods < 1.0) {
        return std::nullopt;
    }
    return Interval{part.to_s - periods / frequency_hz, part.to_s};
}

} // namespace zeroline::signal
