#include "analysis/signal/shape.hpp"

#include "analysis/signal/least_squares.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/signal/thinning.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kTwoPi = 2.0 * std::numbers::pi;

double span_of(Samples samples) { return samples.size() < 2 ? 0.0 : samples.time_s.back() - samples.time_s.front(); }

double middle_of(Samples samples) { return (samples.time_s.front() + samples.time_s.back()) / 2.0; }

// What a straight line leaves.
std::vector<double> about_line(Samples samples)
{
    const auto line = fit_line(samples.time_s, samples.pressure_cmH2O);
    std::vector<double> left(samples.pressure_cmH2O.begin(), samples.pressure_cmH2O.end());
    for (std::size_t i = 0; line && i < left.size(); ++i) {
        left[i] -= line->at(samples.time_s[i]);
    }
    return left;
}

// 2/n of the Fourier sum at one frequency: amplitude and phase of a sinusoid in evenly weighted values. Turning a unit
// vector instead of calling sin and cos needs even times; the sum is taken over the samples' mean interval.
std::complex<double> fourier(const std::vector<double>& values, double cycles_per_sample)
{
    const std::complex<double> turn = std::polar(1.0, -kTwoPi * cycles_per_sample);
    std::complex<double> at = 1.0;
    std::complex<double> sum = 0.0;
    for (const double value : values) {
        sum += value * at;
        at = {at.real() * turn.real() - at.imag() * turn.imag(), at.real() * turn.imag() + at.imag() * turn.real()};
    }
    return 2.0 / static_cast<double>(std::max<std::size_t>(values.size(), 1)) * sum;
}

std::optional<SpectralLine> line_at(Samples samples, double frequency_hz)
{
    if (samples.size() < 6) {
        return std::nullopt;
    }
    const double middle = middle_of(samples);
    const double half = std::max(span_of(samples) / 2.0, 1e-9);
    const double start = samples.time_s.front();
    const double level = samples.pressure_cmH2O.front();
    LeastSquares<4> with;
    LeastSquares<2> without;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double angle = kTwoPi * frequency_hz * (samples.time_s[i] - start);
        const double along = (samples.time_s[i] - middle) / half;
        const double value = samples.pressure_cmH2O[i] - level;
        with.add({1.0, along, std::sin(angle), std::cos(angle)}, value);
        without.add({1.0, along}, value);
    }
    if (!without.solve() || !with.solve()) {
        return std::nullopt;
    }
    const auto& fitted = with.solution();
    SpectralLine line;
    line.frequency_hz = frequency_hz;
    line.amplitude_cmH2O = std::hypot(fitted[2], fitted[3]);
    line.phase_rad = std::atan2(fitted[3], fitted[2]);
    line.constant_cmH2O = level + fitted[0];
    line.slope_cmH2O_per_s = fitted[1] / half;
    const double free = static_cast<double>(samples.size()) - 4.0;
    line.noise_cmH2O = std::sqrt(with.left() / free);
    line.share = without.left() > 0.0 ? std::clamp(1.0 - with.left() / without.left(), 0.0, 1.0) : 0.0;
    line.chance = std::pow(1.0 - line.share, free / 2.0);
    return line;
}

// Halves the bracket about the best frequency by thirds.
SpectralLine refined(Samples samples, SpectralLine best, double reach_hz)
{
    double low = best.frequency_hz - reach_hz;
    double high = best.frequency_hz + reach_hz;
    for (int k = 0; k < 24 && high - low > 1e-6 * best.frequency_hz; ++k) {
        const double third = (high - low) / 3.0;
        const auto left = line_at(samples, low + third);
        const auto right = line_at(samples, high - third);
        if (!left || !right) {
            break;
        }
        (left->share < right->share ? low : high) += left->share < right->share ? third : -third;
        const SpectralLine& better = left->share < right->share ? *right : *left;
        best = better.share > best.share ? better : best;
    }
    return best;
}

} // namespace

double SpectralLine::at(double time_s, double first_time_s) const
{
    return amplitude_cmH2O * std::sin(kTwoPi * frequency_hz * (time_s - first_time_s) + phase_rad);
}

std::optional<SpectralLine> fit_line_at(Samples samples, double frequency_hz)
{
    const OwnedSamples clean = without_spikes(samples);
    return line_at(clean.view(), frequency_hz);
}

std::optional<SpectralLine> strongest_line(Samples samples, double low_hz, double high_hz, double least_share)
{
    const double span = span_of(samples);
    const double interval = mean_interval_s(samples);
    if (samples.size() < 8 || span * low_hz < 1.0 || interval * low_hz > 0.45) {
        return std::nullopt;
    }
    high_hz = std::min(high_hz, 0.45 / interval);
    const OwnedSamples clean = without_spikes(samples);
    // Eight means a period of the highest frequency lose 3 % of it and nothing of the place of its peak.
    const auto most = static_cast<std::size_t>(std::max(64.0, std::ceil(8.0 * span * high_hz)));
    const OwnedSamples coarse = thinned_to(clean.view(), most);
    const std::vector<double> values = about_line(coarse.view());
    const double coarse_interval = mean_interval_s(coarse.view());
    const double step = 1.0 / (4.0 * span);
    double best_power = -1.0;
    double best_hz = low_hz;
    for (double hz = low_hz; hz <= high_hz + step / 2.0; hz += step) {
        const double power = std::norm(fourier(values, hz * coarse_interval));
        if (power > best_power) {
            best_power = power;
            best_hz = hz;
        }
    }
    auto line = line_at(coarse.view(), best_hz);
    // An eighth of a line's width away it still shows all but a twentieth of what it explains.
    constexpr double kFromAfar = 0.5;
    if (!line || line->share < kFromAfar * least_share) {
        return std::nullopt;
    }
    const double refined_hz = std::clamp(refined(coarse.view(), *line, step).frequency_hz, low_hz, high_hz);
    line = line_at(clean.view(), refined_hz);
    if (line) {
        const double looked_at = std::max(1.0, (high_hz - low_hz) * span);
        line->chance = std::min(1.0, looked_at * line->chance);
    }
    return line;
}

std::optional<Hum> hum(Samples samples)
{
    const double span = span_of(samples);
    const double interval = mean_interval_s(samples);
    if (samples.size() < 8 || span < 0.2) {
        return std::nullopt;
    }
    const OwnedSamples clean = without_spikes(samples);
    const double rate = 1.0 / interval;
    std::optional<Hum> strongest;
    for (const double mains : {50.0, 60.0}) {
        const double seen = std::abs(mains - std::round(mains / rate) * rate);
        const bool at_an_end = seen < 2.0 / span || rate / 2.0 - seen < 1.0 / span;
        const auto line = at_an_end ? std::nullopt : line_at(clean.view(), seen);
        if (line && (!strongest || line->amplitude_cmH2O > strongest->amplitude_cmH2O)) {
            strongest = Hum{mains, seen, line->amplitude_cmH2O, line->noise_cmH2O, line->chance};
        }
    }
    return strongest;
}

namespace {

struct Harmonic {
    double frequency_hz = 0.0;
    std::complex<double> amplitude;
};

double peak_to_peak(const std::vector<Harmonic>& harmonics, double interval_s, std::size_t count)
{
    double low = 0.0;
    double high = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        double value = 0.0;
        for (const Harmonic& harmonic : harmonics) {
            const double angle = kTwoPi * harmonic.frequency_hz * interval_s * static_cast<double>(i);
            value += harmonic.amplitude.real() * std::cos(angle) - harmonic.amplitude.imag() * std::sin(angle);
        }
        low = std::min(low, value);
        high = std::max(high, value);
    }
    return high - low;
}

std::optional<BandVariation> band_variation(Samples samples, double low_hz, double high_hz, double shortest_s)
{
    const double span = span_of(samples);
    if (samples.size() < 8 || span < shortest_s || mean_interval_s(samples) * high_hz > 0.4) {
        return std::nullopt;
    }
    const OwnedSamples clean = without_spikes(samples);
    const auto most = static_cast<std::size_t>(std::clamp(std::ceil(8.0 * span * high_hz), 16.0, 600.0));
    const OwnedSamples coarse = thinned_to(clean.view(), most);
    const std::vector<double> values = about_line(coarse.view());
    const double interval = mean_interval_s(coarse.view());
    const double whole = interval * static_cast<double>(values.size());
    std::vector<Harmonic> harmonics;
    double power = 0.0;
    const Harmonic* strongest = nullptr;
    for (int k = 1; k / whole <= high_hz; ++k) {
        if (k / whole >= 0.8 * low_hz) {
            harmonics.push_back({k / whole, fourier(values, interval * k / whole)});
            power += std::norm(harmonics.back().amplitude) / 2.0;
        }
    }
    for (const Harmonic& harmonic : harmonics) {
        if (strongest == nullptr || std::norm(harmonic.amplitude) > std::norm(strongest->amplitude)) {
            strongest = &harmonic;
        }
    }
    BandVariation variation;
    variation.noise_cmH2O = sample_noise(samples);
    variation.rms_cmH2O = std::sqrt(power);
    if (strongest != nullptr && power > 0.0) {
        variation.peak_to_peak_cmH2O = peak_to_peak(harmonics, interval, values.size());
        variation.dominant_hz = strongest->frequency_hz;
        variation.dominant_share = std::norm(strongest->amplitude) / 2.0 / power;
    }
    return variation;
}

} // namespace

std::optional<BandVariation> wobble(Samples samples) { return band_variation(samples, 0.5, 3.0, 1.0); }

std::optional<BandVariation> breathing_swings(Samples samples) { return band_variation(samples, 0.1, 1.0, 1.5); }

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
