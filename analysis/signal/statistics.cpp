#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace zeroline::signal {
namespace {

struct Moments {
    double mean = 0.0;
    double sum_of_squares = 0.0; // about the mean
};

// The second pass takes up what rounding left of the first (Chan, Golub, LeVeque 1983).
Moments moments(std::span<const double> values)
{
    const auto count = static_cast<double>(values.size());
    const double guess = sum(values) / count;
    const double left = sum_over(values.size(), [&](std::size_t i) { return values[i] - guess; });
    const double mean = guess + left / count;
    const auto off = [&](std::size_t i) { return values[i] - mean; };
    const double drift = sum_over(values.size(), off);
    const double squares = sum_over(values.size(), [&](std::size_t i) { return off(i) * off(i); });
    return {mean, squares - drift * drift / count};
}

double lagged_products(std::span<const double> values, double mean, std::size_t lag)
{
    return sum_over(values.size() - lag, [&](std::size_t i) { return (values[i + lag] - mean) * (values[i] - mean); });
}

} // namespace

std::optional<double> mean(std::span<const double> values)
{
    if (values.empty()) {
        return std::nullopt;
    }
    return moments(values).mean;
}

std::optional<double> standard_deviation(std::span<const double> values)
{
    if (values.size() < 2) {
        return std::nullopt;
    }
    return std::sqrt(moments(values).sum_of_squares / static_cast<double>(values.size() - 1));
}

double sum(std::span<const double> values)
{
    return sum_over(values.size(), [&](std::size_t i) { return values[i]; });
}

double dot(std::span<const double> a, std::span<const double> b)
{
    return sum_over(a.size(), [&](std::size_t i) { return a[i] * b[i]; });
}

std::optional<double> autocorrelation(std::span<const double> values, std::size_t lag)
{
    if (values.size() <= lag) {
        return std::nullopt;
    }
    const Moments of = moments(values);
    if (of.sum_of_squares <= 0.0) {
        return std::nullopt;
    }
    return lagged_products(values, of.mean, lag) / of.sum_of_squares;
}

std::optional<double> median(std::vector<double> values)
{
    if (values.empty()) {
        return std::nullopt;
    }
    const std::size_t upper = values.size() / 2;
    const bool odd = values.size() % 2 == 1;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(upper);
    std::nth_element(values.begin(), middle, values.end());
    return odd ? *middle : (*middle + *std::max_element(values.begin(), middle)) / 2.0;
}

std::optional<MeanUncertainty> uncertainty_of_mean(std::span<const double> residuals, std::size_t fitted)
{
    const std::size_t count = residuals.size();
    if (count <= fitted) {
        return std::nullopt;
    }
    const auto n = static_cast<double>(count);
    const double dof = n - static_cast<double>(fitted);
    const double sum_of_squares = dot(residuals, residuals);
    double inflation = 1.0;
    const std::size_t last_lag = std::min<std::size_t>(count / 4, 400);
    const double insignificant = 2.0 / std::sqrt(n);
    for (std::size_t lag = 1; lag <= last_lag && sum_of_squares > 0.0; ++lag) {
        const double rho = lagged_products(residuals, 0.0, lag) / sum_of_squares;
        if (rho <= insignificant) {
            break;
        }
        inflation += 2.0 * (1.0 - static_cast<double>(lag) / n) * rho;
    }
    MeanUncertainty result;
    result.effective_count = n / inflation;
    result.dof = std::max(1.0, dof / inflation);
    result.standard_uncertainty = std::sqrt(sum_of_squares / dof * inflation / n);
    return result;
}

std::optional<Line> fit_line(std::span<const double> x, std::span<const double> y)
{
    if (x.size() < 2 || x.size() != y.size()) {
        return std::nullopt;
    }
    std::array<double, 4> sx{}, sy{}, sxx{}, sxy{}, syy{};
    const auto take = [&](std::size_t i, std::size_t k) {
        const double along = x[i] - x.front();
        const double off = y[i] - y.front();
        sx[k] += along;
        sy[k] += off;
        sxx[k] += along * along;
        sxy[k] += along * off;
        syy[k] += off * off;
    };
    std::size_t i = 0;
    for (; i + 4 <= x.size(); i += 4) {
        for (std::size_t k = 0; k < 4; ++k) {
            take(i + k, k);
        }
    }
    for (; i < x.size(); ++i) {
        take(i, 0);
    }
    const auto all = [](const std::array<double, 4>& lane) { return (lane[0] + lane[1]) + (lane[2] + lane[3]); };
    const auto n = static_cast<double>(x.size());
    const double squares = all(sxx) - all(sx) * all(sx) / n;
    const double products = all(sxy) - all(sx) * all(sy) / n;
    if (!(squares > 0.0)) {
        return std::nullopt;
    }
    const double slope = products / squares;
    const double left = std::max(0.0, all(syy) - all(sy) * all(sy) / n - slope * products);
    return Line{slope, x.front() + all(sx) / n, y.front() + all(sy) / n, n > 2.0 ? std::sqrt(left / (n - 2.0)) : 0.0};
}

} // namespace zeroline::signal
