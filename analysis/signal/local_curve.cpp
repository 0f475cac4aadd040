#include "analysis/signal/local_curve.hpp"

#include "analysis/signal/small_matrix.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::signal {
namespace {

constexpr std::size_t kSize = LocalCurve::kParameters;
using Vector = SmallVector<kSize>;
using Matrix = SmallMatrix<kSize>;

// Standard deviations of the coefficients of (time / edge time)^k: derivatives 4, 10, 30, 100, 350 over k!. Level and
// slope are held by next to nothing.
constexpr Vector kBends{100.0, 100.0, 4.0 / 2.0, 10.0 / 6.0, 30.0 / 24.0, 100.0 / 120.0, 350.0 / 720.0};
constexpr std::array<double, LocalCurve::kSizesOfBends> kSizes{0.12, 0.4, 1.3};

Vector powers_of(double x)
{
    Vector powers{1.0};
    for (std::size_t k = 1; k < kSize; ++k) {
        powers[k] = powers[k - 1] * x;
    }
    return powers;
}

} // namespace

std::optional<LocalCurve::Candidate> LocalCurve::candidate(const Matrix& normal, const Vector& right, double bends)
{
    Candidate result;
    Matrix with_prior = normal;
    double prior = 1.0;
    for (std::size_t i = 0; i < kSize; ++i) {
        const double deviation = i < 2 ? kBends[i] : bends * kBends[i];
        with_prior[i][i] += 1.0 / (deviation * deviation);
        prior *= deviation;
    }
    if (!decompose(with_prior, result.lower)) {
        return std::nullopt;
    }
    double root = 1.0; // of the determinant
    for (std::size_t i = 0; i < kSize; ++i) {
        root *= result.lower[i][i];
    }
    result.coefficients = solved(result.lower, right);
    result.log_evidence = 0.5 * product(right, result.coefficients) - std::log(prior * root);
    return result;
}

void LocalCurve::average()
{
    double best = candidates_.front().log_evidence;
    for (const Candidate& one : candidates_) {
        best = std::max(best, one.log_evidence);
    }
    double sum = 0.0;
    for (Candidate& one : candidates_) {
        one.share = std::exp(one.log_evidence - best);
        sum += one.share;
    }
    log_likelihood_ = best + std::log(sum / static_cast<double>(candidates_.size()));
    for (Candidate& one : candidates_) {
        one.share /= sum;
        for (std::size_t i = 0; i < kSize; ++i) {
            coefficients_[i] += one.share * one.coefficients[i];
        }
    }
}

LocalCurve::Variance LocalCurve::variance_of(const Vector& weights) const
{
    Variance variance;
    for (const Candidate& one : candidates_) {
        const Vector reaction = solved(one.lower, weights);
        double apart = 0.0;
        for (std::size_t i = 0; i < kSize; ++i) {
            apart += (one.coefficients[i] - coefficients_[i]) * weights[i];
        }
        variance.all += one.share * (product(weights, reaction) + apart * apart);
        variance.noise += one.share * product(reaction, product(normal_, reaction));
    }
    return variance;
}

std::optional<LocalCurve> LocalCurve::fit(std::span<const Point> points, double centre_s, double edge_s, double noise)
{
    if (points.size() < 2 || !(points.back().time_s > points.front().time_s) || !(edge_s > 0.0)) {
        return std::nullopt;
    }
    LocalCurve curve;
    curve.centre_s_ = centre_s;
    curve.scale_s_ = edge_s;
    const double weight = 1.0 / (noise * noise);
    std::array<double, 2 * kSize - 1> moments{}; // sums of powers: the normal equations hold nothing else
    Vector right{};
    double squares_of_fractions = 0.0;
    for (const Point& point : points) {
        const double x = (point.time_s - centre_s) / edge_s;
        double power = point.weight;
        squares_of_fractions += point.weight * point.fraction * point.fraction;
        for (std::size_t k = 0; k < kSize; ++k) {
            moments[k] += power;
            right[k] += power * point.fraction;
            power *= x;
        }
        for (std::size_t k = kSize; k < moments.size(); ++k) {
            moments[k] += power;
            power *= x;
        }
    }
    for (std::size_t i = 0; i < kSize; ++i) {
        right[i] *= weight;
        for (std::size_t j = 0; j < kSize; ++j) {
            curve.normal_[i][j] = moments[i + j] * weight;
        }
    }
    for (std::size_t k = 0; k < kSizes.size(); ++k) {
        const auto one = candidate(curve.normal_, right, kSizes[k]);
        if (!one) {
            return std::nullopt;
        }
        curve.candidates_[k] = *one;
    }
    curve.average();
    curve.log_likelihood_ -= 0.5 * squares_of_fractions * weight;
    return curve;
}

LocalCurve::Vector LocalCurve::powers(double time_s) const noexcept
{
    return powers_of((time_s - centre_s_) / scale_s_);
}

double LocalCurve::at(double time_s) const noexcept
{
    const double x = (time_s - centre_s_) / scale_s_;
    double sum = 0.0;
    for (std::size_t k = kSize; k-- > 0;) {
        sum = sum * x + coefficients_[k];
    }
    return sum;
}

double LocalCurve::slope_at(double time_s) const noexcept
{
    const double x = (time_s - centre_s_) / scale_s_;
    double sum = 0.0;
    for (std::size_t k = kSize; k-- > 1;) {
        sum = sum * x + static_cast<double>(k) * coefficients_[k];
    }
    return sum / scale_s_;
}

double LocalCurve::deviation_at(double time_s) const noexcept
{
    return std::sqrt(std::max(0.0, variance_of(powers(time_s)).all));
}

std::optional<double> LocalCurve::crossing(double fraction, double near_s, double reach_s) const
{
    double low = near_s;
    double high = near_s;
    // Walk outwards until the crossing is bracketed, then halve: safe on any polynomial.
    constexpr int kSteps = 24;
    const double step = reach_s / kSteps;
    bool found = at(near_s) == fraction;
    for (int k = 0; k < kSteps && !found; ++k) {
        if (at(near_s) > fraction) {
            high = low;
            low -= step;
            found = at(low) <= fraction;
        } else {
            low = high;
            high += step;
            found = at(high) >= fraction;
        }
    }
    if (!found) {
        return std::nullopt;
    }
    for (int k = 0; k < 60 && high - low > 1e-12; ++k) {
        const double middle = (low + high) / 2.0;
        (at(middle) < fraction ? low : high) = middle;
    }
    const double time = (low + high) / 2.0;
    return slope_at(time) > 0.0 ? std::optional<double>(time) : std::nullopt;
}

LocalCurve::Spread LocalCurve::spread_of(std::span<const Weighted> crossings) const
{
    Vector gradient{};
    for (const Weighted& crossing : crossings) {
        const Vector at = powers(crossing.time_s);
        const double share = crossing.weight / slope_at(crossing.time_s);
        for (std::size_t k = 0; k < kParameters; ++k) {
            gradient[k] += share * at[k];
        }
    }
    const auto [all, noise] = variance_of(gradient);
    return {std::sqrt(std::max(0.0, noise)), std::sqrt(std::max(0.0, all - noise))};
}

} // namespace zeroline::signal
