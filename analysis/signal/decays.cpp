#include "analysis/signal/least_squares.hpp"
#include "analysis/signal/oscillation.hpp"
#include "analysis/signal/shape.hpp"
#include "analysis/signal/spikes.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/signal/thinning.hpp"

#include <boost/math/tools/minima.hpp>
#include <Eigen/LU>
#include <Eigen/QR>

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

// Least squares of constant, slope, bend and a damped sinusoid. The first three are the same at every frequency: they
// are made orthonormal, and taken off the pressure, once.
class DampedFit {
public:
    explicit DampedFit(Samples samples)
        : span_s_(span_of(samples)), time_s_(samples.time_s), wave_(samples.size(), 2), value_(samples.size())
    {
        const auto count = static_cast<Eigen::Index>(samples.size());
        Eigen::MatrixX3d bends(count, 3);
        for (Eigen::Index i = 0; i < count; ++i) {
            const auto at = static_cast<std::size_t>(i);
            const double along = 2.0 * (time_s_[at] - time_s_[0]) / span_s_ - 1.0;
            bends.row(i) << 1.0, along, along * along;
            value_[i] = samples.pressure_cmH2O[at] - samples.pressure_cmH2O[0];
        }
        const Eigen::HouseholderQR<Eigen::MatrixX3d> factors(bends);
        unit_ = factors.householderQ() * Eigen::MatrixX3d::Identity(count, 3);
        value_ -= unit_ * (unit_.transpose() * value_).eval();
        plain_ = value_.squaredNorm();
    }

    [[nodiscard]] double span_s() const { return span_s_; }
    // Sum of squares that constant, slope and bend alone leave.
    [[nodiscard]] double plain() const { return plain_; }

    [[nodiscard]] Damped at(double frequency_hz, double time_constant_s)
    {
        constexpr double kIndependent = 1e-12; // of the product of their squares: less is rounding
        draw(1.0 / time_constant_s, frequency_hz);
        const double least = kIndependent * std::pow(wave_.squaredNorm(), 2);
        // Coefficient by coefficient: for two and three columns a blocked product costs more to set up.
        const Eigen::Matrix<double, 3, 2> along = unit_.transpose().lazyProduct(wave_);
        wave_ -= unit_.lazyProduct(along);
        const Eigen::Matrix2d square = wave_.transpose().lazyProduct(wave_);
        const Eigen::Vector2d right = wave_.transpose() * value_;
        if (!(square.determinant() > least)) {
            return {frequency_hz, time_constant_s, 0.0, 0.0, false};
        }
        const Eigen::Vector2d strength = square.inverse() * right;
        return {frequency_hz, time_constant_s, strength.norm(), std::max(0.0, plain_ - strength.dot(right)), true};
    }

private:
    // A turn and a decay each.
    void draw(double decay_per_s, double frequency_hz)
    {
        Turner turner(frequency_hz, decay_per_s);
        for (std::size_t i = 0; i < time_s_.size(); ++i) {
            turner.turn_to(time_s_[i] - time_s_[0]);
            wave_.row(static_cast<Eigen::Index>(i)) << turner.sine(), turner.cosine();
        }
    }

    double span_s_;
    double plain_ = 0.0;
    std::span<const double> time_s_;
    Eigen::MatrixX3d unit_;
    Eigen::MatrixX2d wave_;
    Eigen::VectorXd value_;
};

void keep_better(Damped& best, const Damped& other)
{
    if (other.solved && (!best.solved || other.left < best.left)) {
        best = other;
    }
}

// The envelope is searched in steps of two and a half, the frequency in halves of a line width.
Damped coarse_search(DampedFit& fit, double low_hz, double high_hz)
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

Damped refined(DampedFit& fit, Damped best, double low_hz, double high_hz)
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
    DampedFit fit(coarse.view());
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
