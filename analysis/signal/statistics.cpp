#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace zeroline::signal {
namespace {

constexpr int kHighestDegree = 5;
constexpr std::size_t kMostParameters = kHighestDegree + 1;

struct Moments {
    double mean = 0.0;
    double sum_of_squares = 0.0; // about the mean
};

// The second pass takes up what rounding left of the first (Chan, Golub, LeVeque 1983).
Moments moments(std::span<const double> values)
{
    const auto count = static_cast<double>(values.size());
    double sum = 0.0;
    for (const double value : values) {
        sum += value;
    }
    const double guess = sum / count;
    double left = 0.0;
    for (const double value : values) {
        left += value - guess;
    }
    Moments result;
    result.mean = guess + left / count;
    double drift = 0.0;
    for (const double value : values) {
        const double off = value - result.mean;
        result.sum_of_squares += off * off;
        drift += off;
    }
    result.sum_of_squares -= drift * drift / count;
    return result;
}

double lagged_products(std::span<const double> values, double mean, std::size_t lag)
{
    double sum = 0.0;
    for (std::size_t i = lag; i < values.size(); ++i) {
        sum += (values[i] - mean) * (values[i - lag] - mean);
    }
    return sum;
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

double dot(std::span<const double> a, std::span<const double> b)
{
    std::array<double, 4> lane{};
    std::size_t i = 0;
    for (; i + 4 <= a.size(); i += 4) {
        for (std::size_t k = 0; k < 4; ++k) {
            lane[k] += a[i + k] * b[i + k];
        }
    }
    for (; i < a.size(); ++i) {
        lane[0] += a[i] * b[i];
    }
    return (lane[0] + lane[1]) + (lane[2] + lane[3]);
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

namespace {

constexpr std::size_t kFew = 24;   // left between the limits
constexpr std::size_t kMany = 100; // from here on counting is faster

// Four counts that do not wait for each other.
std::size_t count_below(std::span<const double> values, double limit)
{
    std::array<double, 4> lane{};
    std::size_t i = 0;
    for (; i + 4 <= values.size(); i += 4) {
        for (std::size_t k = 0; k < 4; ++k) {
            lane[k] += values[i + k] < limit ? 1.0 : 0.0;
        }
    }
    for (; i < values.size(); ++i) {
        lane[0] += values[i] < limit ? 1.0 : 0.0;
    }
    return static_cast<std::size_t>((lane[0] + lane[1]) + (lane[2] + lane[3]));
}

// Limits that both of the middle two values lie between.
struct Middle {
    double low = 0.0;
    double high = 0.0; // excluded
    std::size_t below = 0;
    std::size_t inside = 0;
};

// Counting takes no branch that depends on a value, which on noise is guessed wrong half the time: limits are moved
// towards the middle until few values are left between them. The next limit is where the middle lies if the values are
// spread evenly, and a little beyond, so that both limits move.
Middle middle_of(std::span<const double> values)
{
    constexpr int kMostRounds = 30;
    constexpr double kBeyond = 1.0 / 16.0;
    const std::size_t upper = values.size() / 2;
    const std::size_t lower = (values.size() - 1) / 2;
    const auto [least, most] = std::minmax_element(values.begin(), values.end());
    Middle middle{*least, std::nextafter(*most, HUGE_VAL), 0, values.size()};
    double beyond = 0.0;
    for (int round = 0; round < kMostRounds && middle.inside > kFew; ++round) {
        const double part = static_cast<double>(upper - middle.below) / static_cast<double>(middle.inside) + beyond;
        const double limit = middle.low + part * (middle.high - middle.low);
        const std::size_t count = count_below(values, limit);
        if (count <= lower && limit > middle.low) {
            middle.inside -= count - middle.below;
            middle.below = count;
            middle.low = limit;
            beyond = kBeyond;
        } else if (count > upper && limit < middle.high) {
            middle.inside = count - middle.below;
            middle.high = limit;
            beyond = -kBeyond;
        } else {
            break; // between the middle two, or no number is left between the limits
        }
    }
    return middle;
}

// Leaves only what lies near the middle; returns how many values below that went.
std::size_t keep_middle(std::vector<double>& values)
{
    if (values.size() < kMany || count_below(values, HUGE_VAL) < values.size()) {
        return 0; // few, or not all of them numbers
    }
    const Middle middle = middle_of(values);
    std::size_t kept = 0;
    for (const double value : values) {
        values[kept] = value;
        kept += static_cast<std::size_t>(value >= middle.low) & static_cast<std::size_t>(value < middle.high);
    }
    values.resize(kept);
    return middle.below;
}

} // namespace

std::optional<double> median(std::vector<double> values)
{
    if (values.empty()) {
        return std::nullopt;
    }
    const std::size_t upper = values.size() / 2;
    const bool odd = values.size() % 2 == 1;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(upper - keep_middle(values));
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
    double sum_of_squares = 0.0;
    for (const double residual : residuals) {
        sum_of_squares += residual * residual;
    }
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
    double products = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        products += (x[i] - of_x.mean) * (y[i] - of_y.mean);
    }
    Line line;
    line.count = x.size();
    line.slope = products / of_x.sum_of_squares;
    line.intercept = of_y.mean - line.slope * of_x.mean;
    double left = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double off = (y[i] - of_y.mean) - line.slope * (x[i] - of_x.mean);
        left += off * off;
    }
    line.residual_deviation = x.size() > 2 ? std::sqrt(left / (n - 2.0)) : 0.0;
    line.slope_deviation = line.residual_deviation / std::sqrt(of_x.sum_of_squares);
    line.intercept_deviation =
        line.residual_deviation * std::sqrt(1.0 / n + of_x.mean * of_x.mean / of_x.sum_of_squares);
    line.r_squared = of_y.sum_of_squares > 0.0 ? 1.0 - left / of_y.sum_of_squares : 1.0;
    return line;
}

std::optional<Line> fit_line_through_origin(std::span<const double> x, std::span<const double> y)
{
    if (x.empty() || x.size() != y.size()) {
        return std::nullopt;
    }
    double xx = 0.0;
    double xy = 0.0;
    double yy = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        xx += x[i] * x[i];
        xy += x[i] * y[i];
        yy += y[i] * y[i];
    }
    if (xx <= 0.0) {
        return std::nullopt;
    }
    Line line;
    line.count = x.size();
    line.slope = xy / xx;
    double left = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double off = y[i] - line.slope * x[i];
        left += off * off;
    }
    line.residual_deviation = x.size() > 1 ? std::sqrt(left / static_cast<double>(x.size() - 1)) : 0.0;
    line.slope_deviation = line.residual_deviation / std::sqrt(xx);
    line.r_squared = yy > 0.0 ? 1.0 - left / yy : 1.0; // about 0: there is no intercept
    return line;
}

double Polynomial::at(double x) const noexcept
{
    const double u = (x - centre) / scale;
    double sum = 0.0;
    for (std::size_t k = coefficients.size(); k-- > 0;) {
        sum = sum * u + coefficients[k];
    }
    return sum;
}

double Polynomial::slope_at(double x) const noexcept
{
    const double u = (x - centre) / scale;
    double sum = 0.0;
    for (std::size_t k = coefficients.size(); k-- > 1;) {
        sum = sum * u + static_cast<double>(k) * coefficients[k];
    }
    return sum / scale;
}

double Polynomial::deviation_factor_at(double x) const noexcept
{
    const double u = (x - centre) / scale;
    const std::size_t size = coefficients.size();
    double sum = 0.0;
    double row_power = 1.0;
    for (std::size_t i = 0; i < size; ++i) {
        double power = 1.0;
        for (std::size_t j = 0; j < size; ++j) {
            sum += row_power * power * covariance_factor[i * size + j];
            power *= u;
        }
        row_power *= u;
    }
    return std::sqrt(std::max(0.0, sum));
}

std::vector<double> Polynomial::plain_coefficients() const
{
    std::vector<double> plain;
    for (std::size_t k = coefficients.size(); k-- > 0;) {
        // plain := plain * (x - centre) / scale + coefficients[k]
        plain.push_back(0.0);
        for (std::size_t j = plain.size() - 1; j > 0; --j) {
            plain[j] = (plain[j - 1] - centre * plain[j]) / scale;
        }
        plain[0] = -centre * plain[0] / scale + coefficients[k];
    }
    return plain;
}

namespace {

// Least squares by Householder reflections, rows of at most kMostParameters columns and the right-hand side.
class Reflections {
public:
    Reflections(std::size_t rows, std::size_t columns) : rows_(rows), columns_(columns), cells_(rows * (columns + 1)) {}

    double& at(std::size_t row, std::size_t column) { return cells_[row * (columns_ + 1) + column]; }

    // False where a column is spanned by those before it.
    bool triangulate()
    {
        for (std::size_t k = 0; k < columns_; ++k) {
            if (!reflect(k)) {
                return false;
            }
        }
        return true;
    }

    std::vector<double> solve()
    {
        std::vector<double> solution(columns_);
        for (std::size_t k = columns_; k-- > 0;) {
            double sum = at(k, columns_);
            for (std::size_t j = k + 1; j < columns_; ++j) {
                sum -= at(k, j) * solution[j];
            }
            solution[k] = sum / at(k, k);
        }
        return solution;
    }

    double residual_squares()
    {
        double sum = 0.0;
        for (std::size_t i = columns_; i < rows_; ++i) {
            sum += at(i, columns_) * at(i, columns_);
        }
        return sum;
    }

    // (R'R)^-1 from R^-1.
    std::vector<double> covariance()
    {
        std::array<std::array<double, kMostParameters>, kMostParameters> inverse{};
        for (std::size_t k = columns_; k-- > 0;) {
            inverse[k][k] = 1.0 / at(k, k);
            for (std::size_t j = k + 1; j < columns_; ++j) {
                double sum = 0.0;
                for (std::size_t m = k + 1; m <= j; ++m) {
                    sum += at(k, m) * inverse[m][j];
                }
                inverse[k][j] = -sum / at(k, k);
            }
        }
        std::vector<double> product(columns_ * columns_);
        for (std::size_t i = 0; i < columns_; ++i) {
            for (std::size_t j = 0; j < columns_; ++j) {
                for (std::size_t m = std::max(i, j); m < columns_; ++m) {
                    product[i * columns_ + j] += inverse[i][m] * inverse[j][m];
                }
            }
        }
        return product;
    }

private:
    bool reflect(std::size_t k)
    {
        double squares = 0.0;
        for (std::size_t i = k; i < rows_; ++i) {
            squares += at(i, k) * at(i, k);
        }
        const double norm = std::sqrt(squares);
        if (norm <= 1e-12 * std::sqrt(static_cast<double>(rows_))) {
            return false;
        }
        const double diagonal = at(k, k) > 0.0 ? -norm : norm;
        const double head = at(k, k) - diagonal;
        for (std::size_t j = k + 1; j <= columns_; ++j) {
            double product = head * at(k, j);
            for (std::size_t i = k + 1; i < rows_; ++i) {
                product += at(i, k) * at(i, j);
            }
            const double factor = product / (diagonal * head);
            at(k, j) += factor * head;
            for (std::size_t i = k + 1; i < rows_; ++i) {
                at(i, j) += factor * at(i, k);
            }
        }
        at(k, k) = diagonal;
        return true;
    }

    std::size_t rows_;
    std::size_t columns_;
    std::vector<double> cells_;
};

} // namespace

std::optional<Polynomial> fit_polynomial(std::span<const double> x, std::span<const double> y, int degree)
{
    const auto parameters = static_cast<std::size_t>(degree) + 1;
    if (degree < 0 || degree > kHighestDegree || x.size() < parameters || x.size() != y.size()) {
        return std::nullopt;
    }
    Polynomial fit;
    fit.count = x.size();
    const auto [low, high] = std::minmax_element(x.begin(), x.end());
    fit.centre = (*low + *high) / 2.0;
    fit.scale = *high > *low ? (*high - *low) / 2.0 : 1.0;
    Reflections rows(x.size(), parameters);
    for (std::size_t i = 0; i < x.size(); ++i) {
        double power = 1.0;
        for (std::size_t k = 0; k < parameters; ++k) {
            rows.at(i, k) = power;
            power *= (x[i] - fit.centre) / fit.scale;
        }
        rows.at(i, parameters) = y[i];
    }
    if (!rows.triangulate()) {
        return std::nullopt;
    }
    fit.coefficients = rows.solve();
    fit.covariance_factor = rows.covariance();
    const auto free = static_cast<double>(x.size() - parameters);
    fit.residual_deviation = free > 0.0 ? std::sqrt(rows.residual_squares() / free) : 0.0;
    return fit;
}

} // namespace zeroline::signal
