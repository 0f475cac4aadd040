#include "analysis/signal/beside_columns.hpp"
#include "analysis/signal/least_squares.hpp"
#include "analysis/signal/shape.hpp"
#include "analysis/signal/spikes.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/signal/thinning.hpp"

#include <boost/math/tools/minima.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kWorthwhile = 0.02; // a time constant in the middle must explain that much more than one at the bounds

double span_of(Samples samples) { return samples.size() < 2 ? 0.0 : samples.time_s.back() - samples.time_s.front(); }

// What a damped sinusoid beside constant, slope and bend leaves of a stretch.
struct Damped {
    double frequency_hz = 0.0;
    double time_constant_s = 0.0;
    double amplitude = 0.0;
    double left = 0.0; // sum of squares
    bool solved = false;
};

// Least squares of constant, slope, bend and a damped sinusoid.
class DampedFit {
public:
    explicit DampedFit(Samples samples) : span_s_(span_of(samples)), beside_(rows_of(samples), 2) {}

    [[nodiscard]] double span_s() const { return span_s_; }
    // Sum of squares that constant, slope and bend alone leave.
    [[nodiscard]] double plain() const { return beside_.left({0, 1, 2}); }

    [[nodiscard]] Damped at(double frequency_hz, double time_constant_s) const
    {
        const auto fit = beside_.fit(beside_.wave(Turner(frequency_hz, 1.0 / time_constant_s)), {0, 1, 2});
        return {frequency_hz, time_constant_s, fit.amplitude, fit.left, fit.solved};
    }

private:
    using Beside = BesideColumns<3>;

    static std::vector<Beside::Row> rows_of(Samples samples)
    {
        std::vector<Beside::Row> rows;
        rows.reserve(samples.size());
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const double time_s = samples.time_s[i] - samples.time_s[0];
            const double along = 2.0 * time_s / span_of(samples) - 1.0;
            rows.push_back(
                {time_s, samples.pressure_cmH2O[i] - samples.pressure_cmH2O[0], {1.0, along, along * along}});
        }
        return rows;
    }

    double span_s_;
    Beside beside_;
};

void keep_better(Damped& best, const Damped& other)
{
    if (other.solved && (!best.solved || other.left < best.left)) {
        best = other;
    }
}

// The envelope is searched in steps of two and a half, the frequency in halves of a line width.
Damped coarse_search(const DampedFit& fit, double low_hz, double high_hz)
{
    const double span = fit.span_s();
    Damped best;
    for (double hz = std::max(low_hz, 1.0 / span); hz <= high_hz; hz += std::max(1.0 / (2.0 * span), 0.1 * hz)) {
        for (const double constant : {0.1 * span, 0.25 * span, 0.6 * span}) {
            keep_better(best, fit.at(hz, std::max(constant, 0.3 / hz)));
        }
    }
    return best;
}

Damped refined(const DampedFit& fit, Damped best, double low_hz, double high_hz)
{
    double hz_step = std::max(1.0 / (4.0 * fit.span_s()), 0.05 * best.frequency_hz);
    double factor = 1.6;
    for (int k = 0; k < 8; ++k) {
        const Damped from = best;
        for (const double hz : {from.frequency_hz - hz_step, from.frequency_hz + hz_step}) {
            keep_better(best, fit.at(std::clamp(hz, low_hz, high_hz), from.time_constant_s));
        }
        for (const double by : {factor, 1.0 / factor}) {
            const double constant = std::clamp(best.time_constant_s * by, 0.2 / best.frequency_hz, 4.0 * fit.span_s());
            keep_better(best, fit.at(best.frequency_hz, constant));
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
    LeastSquares<2> model;
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
    const double deviation = standard_deviation(samples.pressure_cmH2O).value_or(0.0);
    return deviation * deviation * (static_cast<double>(samples.size()) - 1.0);
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
    const ClearSamples clear = without_spikes(after_transition);
    const auto most = static_cast<std::size_t>(std::max(64.0, std::ceil(8.0 * span * high_hz)));
    const OwnedSamples coarse = thinned_to(clear.view(), most);
    const DampedFit fit(coarse.view());
    Damped best = coarse_search(fit, low_hz, high_hz);
    if (!best.solved) {
        return std::nullopt;
    }
    best = refined(fit, best, low_hz, high_hz);
    Ringing found;
    found.frequency_hz = best.frequency_hz;
    found.time_constant_s = best.time_constant_s;
    found.amplitude_cmH2O = best.amplitude;
    const auto free = static_cast<double>(coarse.size()) - 7.0;
    found.noise_cmH2O = free > 0.0 ? std::sqrt(best.left / free) : 0.0;
    found.share = fit.plain() > 0.0 ? std::clamp(1.0 - best.left / fit.plain(), 0.0, 1.0) : 0.0;
    return found;
}

std::optional<ExponentialTail> exponential_tail(Samples after_release, double shortest_s, double longest_s,
                                                double least_cmH2O)
{
    if (after_release.size() < 8 || span_of(after_release) < shortest_s) {
        return std::nullopt;
    }
    const ClearSamples clear = without_spikes(after_release);
    const OwnedSamples coarse = thinned_to(clear.view(), 200);
    const Samples samples = coarse.view();
    const TailFit short_end = tail_fit(samples, shortest_s);
    const TailFit long_end = tail_fit(samples, longest_s);
    const double all = about_mean(samples);
    // A tail explains its amplitude, squared and divided by that factor, squared, of what is there, and varies least
    // for its amplitude at one of the ends.
    const double factor = std::max(short_end.amplitude_factor, long_end.amplitude_factor);
    if (short_end.solved && long_end.solved && factor * std::sqrt(all) < least_cmH2O) {
        return std::nullopt;
    }
    constexpr int kBits = 20; // a millionth of the logarithm
    const auto left_at = [&](double log_s) {
        const TailFit fit = tail_fit(samples, std::exp(log_s));
        return fit.solved ? fit.left : all;
    };
    const double log_s =
        boost::math::tools::brent_find_minima(left_at, std::log(shortest_s), std::log(longest_s), kBits).first;
    const TailFit best = tail_fit(samples, std::exp(log_s));
    const double ends = std::min(short_end.left, long_end.left);
    if (!best.solved || all <= 0.0 || best.left > ends * (1.0 - kWorthwhile)) {
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
