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

// A sum over an index as four sums that do not wait for each other, in a fixed order.
template <class Term> double in_lanes(std::size_t count, const Term& term)
{
    std::array<double, 4> lane{};
    std::size_t i = 0;
    for (; i + 4 <= count; i += 4) {
        for (std::size_t k = 0; k < 4; ++k) {
            lane[k] += term(i + k);
        }
    }
    for (; i < count; ++i) {
        lane[0] += term(i);
    }
    return (lane[0] + lane[1]) + (lane[2] + lane[3]);
}

// The second pass takes up what rounding left of the first (Chan, Golub, LeVeque 1983).
Moments moments(std::span<const double> values)
{
    const auto count = static_cast<double>(values.size());
    const double guess = sum(values) / count;
    const double left = in_lanes(values.size(), [&](std::size_t i) { return values[i] - guess; });
    const double mean = guess + left / count;
    const auto off = [&](std::size_t i) { return values[i] - mean; };
    const double drift = in_lanes(values.size(), off);
    const double squares = in_lanes(values.size(), [&](std::size_t i) { return off(i) * off(i); });
    return {mean, squares - drift * drift / count};
}

double lagged_products(std::span<const double> values, double mean, std::size_t lag)
{
    return in_lanes(values.size() - lag, [&](std::size_t i) { return (values[i + lag] - mean) * (values[i] - mean); });
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
    return in_lanes(values.size(), [&](std::size_t i) { return values[i]; });
}

double dot(std::span<const double> a, std::span<const double> b)
{
    return in_lanes(a.size(), [&](std::size_t i) { return a[i] * b[i]; });
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
    const auto n = static_cast<double>(x.size());
    const Moments of_x = moments(x);
    const Moments of_y = moments(y);
    if (of_x.sum_of_squares <= 0.0) {
        return std::nullopt;
    }
    const double products = in_lanes(x.size(), [&](std::size_t i) { return (x[i] - of_x.mean) * (y[i] - of_y.mean); });
    Line line;
    line.count = x.size();
    line.slope = products / of_x.sum_of_squares;
    line.intercept = of_y.mean - line.slope * of_x.mean;
    const double left = in_lanes(x.size(), [&](std::size_t i) {
        const double off = (y[i] - of_y.mean) - line.slope * (x[i] - of_x.mean);
        return off * off;
    });
    line.residual_deviation = x.size() > 2 ? std::sqrt(left / (n - 2.0)) : 0.0;
    line.slope_deviation = line.residual_deviation / std::sqrt(of_x.sum_of_squares);
    line.intercept_deviation =
        line.residual_deviation * std::sqrt(1.0 / n + of_x.mean * of_x.mean / of_x.sum_of_squares);
    line.r_squared = of_y.sum_of_squares > 0.0 ? 1.0 - left / of_y.sum_of_squares : 1.0;
    return line;
}

} // namespace zeroline::signal
