#include "analysis/signal/least_squares.hpp"
#include "analysis/signal/shape.hpp"
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

void take_off(const std::vector<double>& unit, std::vector<double>& from)
{
    const double share = dot(unit, from);
    for (std::size_t i = 0; i < from.size(); ++i) {
        from[i] -= share * unit[i];
    }
}

// Least squares of constant, slope, bend and a damped sinusoid. The first three are the same at every frequency: they
// are made orthonormal, and taken off the pressure, once.
class DampedFit {
public:
    explicit DampedFit(Samples samples) : span_s_(span_of(samples))
    {
        const double start = samples.time_s.front();
        const double level = samples.pressure_cmH2O.front();
        std::array<std::vector<double>, kBends> bends;
        std::vector<double> left;
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const double time = samples.time_s[i] - start;
            const double along = 2.0 * time / span_s_ - 1.0;
            time_s_.push_back(time);
            left.push_back(samples.pressure_cmH2O[i] - level);
            bends[0].push_back(1.0);
            bends[1].push_back(along);
            bends[2].push_back(along * along);
        }
        for (std::size_t k = 0; k < kBends; ++k) {
            for (std::size_t j = 0; j < k; ++j) {
                take_off(bends[j], bends[k]);
            }
            const double size = std::sqrt(dot(bends[k], bends[k]));
            solvable_ = solvable_ && size > 1e-6;
            for (double& value : bends[k]) {
                value /= size;
            }
        }
        for (const auto& bend : bends) {
            take_off(bend, left);
        }
        plain_ = dot(left, left);
        for (std::size_t i = 0; i < left.size(); ++i) {
            rows_.push_back({bends[0][i], bends[1][i], bends[2][i], left[i]});
        }
        sine_.resize(left.size() + kLanes);
        cosine_.resize(left.size() + kLanes);
        look_for_even_times();
    }

    [[nodiscard]] double span_s() const { return span_s_; }
    // Sum of squares that constant, slope and bend alone leave.
    [[nodiscard]] double plain() const { return plain_; }

    [[nodiscard]] Damped at(double frequency_hz, double time_constant_s)
    {
        Damped fit{frequency_hz, time_constant_s, 0.0, 0.0, false};
        draw({-1.0 / time_constant_s, kTwoPi * frequency_hz});
        const Products sums = products();
        double ss = sums.ss;
        double sc = sums.sc;
        double cc = sums.cc;
        const double least = 1e-12 * std::min(ss, cc);
        for (std::size_t k = 0; k < kBends; ++k) {
            ss -= sums.sine[k] * sums.sine[k];
            sc -= sums.sine[k] * sums.cosine[k];
            cc -= sums.cosine[k] * sums.cosine[k];
        }
        const double determinant = ss * cc - sc * sc;
        if (!solvable_ || !(ss > least) || !(determinant > least * ss)) {
            return fit;
        }
        const double sy = sums.sine[kBends];
        const double cy = sums.cosine[kBends];
        const double a = (cc * sy - sc * cy) / determinant;
        const double b = (ss * cy - sc * sy) / determinant;
        fit.amplitude = std::hypot(a, b);
        fit.left = std::max(0.0, plain_ - a * sy - b * cy);
        fit.solved = true;
        return fit;
    }

private:
    static constexpr std::size_t kBends = 3;
    static constexpr std::size_t kLanes = 4; // samples that are drawn together
    using Row = std::array<double, kBends + 1>;

    // Sums over the samples: of the two waves with each column, and with each other.
    struct Products {
        Row sine{}, cosine{};
        double ss = 0.0, sc = 0.0, cc = 0.0;
    };

    [[nodiscard]] Products products() const
    {
        Products sums;
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            const double s = sine_[i];
            const double c = cosine_[i];
            for (std::size_t k = 0; k < sums.sine.size(); ++k) {
                sums.sine[k] += s * rows_[i][k];
                sums.cosine[k] += c * rows_[i][k];
            }
            sums.ss += s * s;
            sums.sc += s * c;
            sums.cc += c * c;
        }
        return sums;
    }

    void look_for_even_times()
    {
        constexpr double kEven_s = 1e-11;
        step_s_ = time_s_.back() / static_cast<double>(time_s_.size() - 1);
        for (std::size_t i = 0; i < time_s_.size(); ++i) {
            even_ = even_ && std::abs(time_s_[i] - static_cast<double>(i) * step_s_) <= kEven_s;
        }
    }

    // Even times need one turn each, and four turn at a time.
    void draw(std::complex<double> rate)
    {
        if (!even_) {
            draw_one_by_one(rate);
            return;
        }
        std::array<double, kLanes> sine{}, cosine{};
        for (std::size_t k = 0; k < kLanes; ++k) {
            const auto first = std::exp(rate * (static_cast<double>(k) * step_s_));
            sine[k] = first.imag();
            cosine[k] = first.real();
        }
        const auto turn = std::exp(rate * (static_cast<double>(kLanes) * step_s_));
        for (std::size_t i = 0; i < time_s_.size(); i += kLanes) {
            for (std::size_t k = 0; k < kLanes; ++k) {
                const double s = sine[k];
                const double c = cosine[k];
                sine_[i + k] = s;
                cosine_[i + k] = c;
                sine[k] = c * turn.imag() + s * turn.real();
                cosine[k] = c * turn.real() - s * turn.imag();
            }
        }
    }

    void draw_one_by_one(std::complex<double> rate)
    {
        for (std::size_t i = 0; i < time_s_.size(); ++i) {
            const auto now = std::exp(rate * time_s_[i]);
            sine_[i] = now.imag();
            cosine_[i] = now.real();
        }
    }

    double span_s_;
    double plain_ = 0.0;
    double step_s_ = 0.0;
    bool solvable_ = true;
    bool even_ = true;
    std::vector<double> time_s_, sine_, cosine_;
    std::vector<Row> rows_;
};

void keep_better(Damped& best, const Damped& other)
{
    if (other.solved && (!best.solved || other.left < best.left)) {
        best = other;
    }
}

// The envelope is searched in steps of two and a half, the frequency in quarters of a line width.
Damped coarse_search(DampedFit& fit, double low_hz, double high_hz)
{
    const double span = fit.span_s();
    Damped best;
    for (double hz = std::max(low_hz, 1.0 / span); hz <= high_hz; hz += std::max(1.0 / (4.0 * span), 0.05 * hz)) {
        for (const double constant : {0.1 * span, 0.25 * span, 0.6 * span}) {
            keep_better(best, fit.at(hz, std::max(constant, 0.3 / hz)));
        }
    }
    return best;
}

Damped refined(DampedFit& fit, Damped best, double low_hz, double high_hz)
{
    double hz_step = std::max(1.0 / (8.0 * fit.span_s()), 0.025 * best.frequency_hz);
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
    const OwnedSamples clean = without_spikes(after_transition);
    const auto most = static_cast<std::size_t>(std::max(64.0, std::ceil(8.0 * span * high_hz)));
    const OwnedSamples coarse = thinned_to(clean.view(), most);
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
    const OwnedSamples clean = without_spikes(after_release);
    const OwnedSamples coarse = thinned_to(clean.view(), 200);
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
