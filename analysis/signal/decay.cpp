#include "analysis/signal/linear_model.hpp"
#include "analysis/signal/shape.hpp"
#include "analysis/signal/thinning.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace zeroline::signal {
namespace {

constexpr double kTwoPi = 2.0 * std::numbers::pi;
constexpr double kWorthwhile = 0.02; // a time constant in the middle must explain that much more than one at the bounds

double span_of(Samples samples) { return samples.size() < 2 ? 0.0 : samples.time_s.back() - samples.time_s.front(); }

// Constant, slope and bend beside a damped sinusoid: what else follows a transition.
struct Damped {
    double frequency_hz = 0.0;
    double time_constant_s = 0.0;
    double amplitude = 0.0;
    double left = 0.0; // sum of squares
    bool solved = false;
};

Damped damped_fit(Samples samples, double frequency_hz, double time_constant_s)
{
    const double start = samples.time_s.front();
    const double span = span_of(samples);
    const double level = samples.pressure_cmH2O.front();
    LinearModel<5> model;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double time = samples.time_s[i] - start;
        const double along = 2.0 * time / span - 1.0;
        const double envelope = std::exp(-time / time_constant_s);
        const double angle = kTwoPi * frequency_hz * time;
        model.add({1.0, along, along * along, envelope * std::sin(angle), envelope * std::cos(angle)},
                  samples.pressure_cmH2O[i] - level);
    }
    Damped fit{frequency_hz, time_constant_s, 0.0, 0.0, model.solve()};
    fit.left = fit.solved ? model.left() : 0.0;
    fit.amplitude = fit.solved ? std::hypot(model.solution()[3], model.solution()[4]) : 0.0;
    return fit;
}

double without_ringing(Samples samples)
{
    const double start = samples.time_s.front();
    const double span = span_of(samples);
    const double level = samples.pressure_cmH2O.front();
    LinearModel<3> model;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double along = 2.0 * (samples.time_s[i] - start) / span - 1.0;
        model.add({1.0, along, along * along}, samples.pressure_cmH2O[i] - level);
    }
    return model.solve() ? model.left() : 0.0;
}

void keep_better(Damped& best, const Damped& other)
{
    if (other.solved && (!best.solved || other.left < best.left)) {
        best = other;
    }
}

// The envelope is searched in steps of two and a half, the frequency in quarters of a line width.
Damped coarse_search(Samples samples, double low_hz, double high_hz)
{
    const double span = span_of(samples);
    Damped best;
    for (double hz = std::max(low_hz, 1.0 / span); hz <= high_hz; hz += std::max(1.0 / (4.0 * span), 0.05 * hz)) {
        for (const double constant : {0.1 * span, 0.25 * span, 0.6 * span}) {
            keep_better(best, damped_fit(samples, hz, std::max(constant, 0.3 / hz)));
        }
    }
    return best;
}

Damped refined(Samples samples, Damped best, double low_hz, double high_hz)
{
    double hz_step = std::max(1.0 / (8.0 * span_of(samples)), 0.025 * best.frequency_hz);
    double factor = 1.6;
    for (int k = 0; k < 8; ++k) {
        const Damped from = best;
        for (const double hz : {from.frequency_hz - hz_step, from.frequency_hz + hz_step}) {
            keep_better(best, damped_fit(samples, std::clamp(hz, low_hz, high_hz), from.time_constant_s));
        }
        for (const double by : {factor, 1.0 / factor}) {
            const double constant =
                std::clamp(best.time_constant_s * by, 0.2 / best.frequency_hz, 4.0 * span_of(samples));
            keep_better(best, damped_fit(samples, best.frequency_hz, constant));
        }
        hz_step /= 1.8;
        factor = std::sqrt(factor);
    }
    return best;
}

struct TailFit {
    double time_constant_s = 0.0;
    double level = 0.0;
    double amplitude = 0.0;
    double amplitude_factor = 0.0; // standard deviation of the amplitude for unit noise
    double left = 0.0;
    bool solved = false;
};

TailFit tail_fit(Samples samples, double time_constant_s)
{
    const double start = samples.time_s.front();
    const double offset = samples.pressure_cmH2O.back();
    LinearModel<2> model;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        model.add({1.0, std::exp(-(samples.time_s[i] - start) / time_constant_s)}, samples.pressure_cmH2O[i] - offset);
    }
    TailFit fit;
    fit.time_constant_s = time_constant_s;
    fit.solved = model.solve();
    if (fit.solved) {
        fit.level = offset + model.solution()[0];
        fit.amplitude = model.solution()[1];
        fit.amplitude_factor = std::sqrt(model.variance_factor(1));
        fit.left = model.left();
    }
    return fit;
}

double about_mean(Samples samples)
{
    const double offset = samples.pressure_cmH2O.back();
    LinearModel<1> model;
    for (const double pressure : samples.pressure_cmH2O) {
        model.add({1.0}, pressure - offset);
    }
    return model.solve() ? model.left() : 0.0;
}

} // namespace

std::optional<Ringing> ringing(Samples after_transition, double low_hz, double high_hz)
{
    const double span = span_of(after_transition);
    const double interval = mean_interval_s(after_transition);
    if (after_transition.size() < 10 || span < 0.1 || interval * low_hz > 0.4) {
        return std::nullopt;
    }
    high_hz = std::min(high_hz, 0.4 / interval);
    const OwnedSamples clean = without_spikes(after_transition);
    const auto most = static_cast<std::size_t>(std::max(64.0, std::ceil(8.0 * span * high_hz)));
    const OwnedSamples coarse = thinned_to(clean.view(), most);
    Damped best = coarse_search(coarse.view(), low_hz, high_hz);
    if (!best.solved) {
        return std::nullopt;
    }
    best = refined(coarse.view(), best, low_hz, high_hz);
    const double plain = without_ringing(coarse.view());
    Ringing found;
    found.frequency_hz = best.frequency_hz;
    found.time_constant_s = best.time_constant_s;
    found.amplitude_cmH2O = best.amplitude;
    const auto free = static_cast<double>(coarse.size()) - 7.0;
    found.noise_cmH2O = free > 0.0 ? std::sqrt(best.left / free) : 0.0;
    found.share = plain > 0.0 ? std::clamp(1.0 - best.left / plain, 0.0, 1.0) : 0.0;
    return found;
}

std::optional<ExponentialTail> exponential_tail(Samples after_release, double shortest_s, double longest_s)
{
    if (after_release.size() < 8 || span_of(after_release) < shortest_s) {
        return std::nullopt;
    }
    const OwnedSamples clean = without_spikes(after_release);
    const OwnedSamples coarse = thinned_to(clean.view(), 200);
    const Samples samples = coarse.view();
    const TailFit short_end = tail_fit(samples, shortest_s);
    const TailFit long_end = tail_fit(samples, longest_s);
    double low = std::log(shortest_s);
    double high = std::log(longest_s);
    TailFit best;
    for (int k = 0; k < 28; ++k) {
        const double third = (high - low) / 3.0;
        const TailFit left = tail_fit(samples, std::exp(low + third));
        const TailFit right = tail_fit(samples, std::exp(high - third));
        if (!left.solved || !right.solved) {
            return std::nullopt;
        }
        best = left.left < right.left ? left : right;
        (left.left < right.left ? high : low) += left.left < right.left ? -third : third;
    }
    const double ends = std::min(short_end.left, long_end.left);
    const double all = about_mean(samples);
    if (all <= 0.0 || best.left > ends * (1.0 - kWorthwhile)) {
        return std::nullopt;
    }
    ExponentialTail tail;
    tail.level_cmH2O = best.level;
    tail.amplitude_cmH2O = best.amplitude;
    tail.time_constant_s = best.time_constant_s;
    tail.noise_cmH2O = std::sqrt(best.left / std::max(1.0, static_cast<double>(samples.size()) - 3.0));
    tail.amplitude_u_cmH2O = best.amplitude_factor * tail.noise_cmH2O;
    tail.share = std::clamp(1.0 - best.left / all, 0.0, 1.0);
    return tail;
}

} // namespace zeroline::signal
