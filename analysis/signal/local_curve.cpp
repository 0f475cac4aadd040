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
constexpr std::array<double, 3> kSizes{0.12, 0.4, 1.3};

// The inverse of a symmetric positive definite matrix. False where it is not one.
bool invert(const Matrix& matrix, Matrix& inverse, double& log_determinant)
{
    Matrix lower{};
    if (!decompose(matrix, lower)) {
        return false;
    }
    log_determinant = 0.0;
    for (std::size_t i = 0; i < kSize; ++i) {
        log_determinant += 2.0 * std::log(lower[i][i]);
    }
    inverse = inverse_of(lower);
    return true;
}

Vector powers_of(double x)
{
    Vector powers{1.0};
    for (std::size_t k = 1; k < kSize; ++k) {
        powers[k] = powers[k - 1] * x;
    }
    return powers;
}

} // namespace

struct LocalCurve::Candidate {
    Vector coefficients{};
    Matrix covariance{};
    Matrix noise_part{};
    double log_evidence = 0.0;
};

std::optional<LocalCurve::Candidate> LocalCurve::candidate(const Matrix& normal, const Vector& right, double bends)
{
    Candidate result;
    Matrix with_prior = normal;
    double log_prior = 0.0;
    for (std::size_t i = 0; i < kSize; ++i) {
        const double deviation = i < 2 ? kBends[i] : bends * kBends[i];
        with_prior[i][i] += 1.0 / (deviation * deviation);
        log_prior -= 2.0 * std::log(deviation);
    }
    double log_determinant = 0.0;
    if (!invert(with_prior, result.covariance, log_determinant)) {
        return std::nullopt;
    }
    result.coefficients = product(result.covariance, right);
    result.log_evidence = 0.5 * (product(right, result.coefficients) + log_prior - log_determinant);
    // What noise does to the coefficients: covariance x normal x covariance.
    Matrix half{};
    for (std::size_t i = 0; i < kSize; ++i) {
        half[i] = product(normal, result.covariance[i]);
    }
    for (std::size_t i = 0; i < kSize; ++i) {
        for (std::size_t j = 0; j < kSize; ++j) {
            result.noise_part[i][j] = product(result.covariance[i], half[j]);
        }
    }
    return result;
}

void LocalCurve::average(std::span<const Candidate> candidates)
{
    double best = candidates.front().log_evidence;
    for (const Candidate& one : candidates) {
        best = std::max(best, one.log_evidence);
    }
    double sum = 0.0;
    for (const Candidate& one : candidates) {
        sum += std::exp(one.log_evidence - best);
    }
    log_likelihood_ = best + std::log(sum / static_cast<double>(candidates.size()));
    for (const Candidate& one : candidates) {
        const double weight = std::exp(one.log_evidence - best) / sum;
        for (std::size_t i = 0; i < kSize; ++i) {
            coefficients_[i] += weight * one.coefficients[i];
        }
    }
    for (const Candidate& one : candidates) {
        const double weight = std::exp(one.log_evidence - best) / sum;
        for (std::size_t i = 0; i < kSize; ++i) {
            for (std::size_t j = 0; j < kSize; ++j) {
                const double apart =
                    (one.coefficients[i] - coefficients_[i]) * (one.coefficients[j] - coefficients_[j]);
                covariance_[i][j] += weight * (one.covariance[i][j] + apart);
                noise_part_[i][j] += weight * one.noise_part[i][j];
            }
        }
    }
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
        double power = 1.0;
        squares_of_fractions += point.fraction * point.fraction;
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
    Matrix normal{};
    for (std::size_t i = 0; i < kSize; ++i) {
        right[i] *= weight;
        for (std::size_t j = 0; j < kSize; ++j) {
            normal[i][j] = moments[i + j] * weight;
        }
    }
    std::array<Candidate, kSizes.size()> candidates;
    for (std::size_t k = 0; k < kSizes.size(); ++k) {
        const auto one = candidate(normal, right, kSizes[k]);
        if (!one) {
            return std::nullopt;
        }
        candidates[k] = *one;
    }
    curve.average(candidates);
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
    const Vector at = powers(time_s);
    return std::sqrt(std::max(0.0, product(at, product(covariance_, at))));
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
    const double all = product(gradient, product(covariance_, gradient));
    const double noise = product(gradient, product(noise_part_, gradient));
    return {std::sqrt(std::max(0.0, noise)), std::sqrt(std::max(0.0, all - noise))};
}

} // namespace zeroline::signal
