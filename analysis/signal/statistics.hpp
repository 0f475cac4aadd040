#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace zeroline::signal {

/// Mean of the values; none where there are none. Two passes: the second takes up what rounding left in the first.
[[nodiscard]] std::optional<double> mean(std::span<const double> values);

/// Sample standard deviation (n - 1), two passes with the correction for the rounding of the mean; none below two
/// values.
[[nodiscard]] std::optional<double> standard_deviation(std::span<const double> values);

/// Sum of a term over an index, as four sums that do not wait for each other, in a fixed order.
template <class Term> [[nodiscard]] double sum_over(std::size_t count, const Term& term)
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

[[nodiscard]] double sum(std::span<const double> values);

/// Sum of the products of two rows of equal length.
[[nodiscard]] double dot(std::span<const double> a, std::span<const double> b);

/// Autocorrelation coefficient at `lag`, as NIST StRD certifies it: sum of lagged products over the sum of squares
/// about the mean of all. None where there are no lagged pairs or no spread.
[[nodiscard]] std::optional<double> autocorrelation(std::span<const double> values, std::size_t lag = 1);

/// Median; none where there are no values.
[[nodiscard]] std::optional<double> median(std::vector<double> values);

/// A standard uncertainty with its degrees of freedom.
struct MeanUncertainty {
    double standard_uncertainty = 0.0;
    double dof = 0.0;
    double effective_count = 0.0; ///< how many independent values the values are worth
};

/// Standard uncertainty of the mean of equally weighted residuals that may be correlated: the variance inflated by the
/// autocorrelation over the lags at which it is significant (initial positive sequence, Geyer 1992), never deflated.
/// `fitted` parameters were taken from the same values. None where no degree of freedom is left.
[[nodiscard]] std::optional<MeanUncertainty> uncertainty_of_mean(std::span<const double> residuals,
                                                                 std::size_t fitted = 1);

/// Least-squares straight line.
struct Line {
    double slope = 0.0;
    double mean_x = 0.0;
    double mean_y = 0.0;
    double deviation = 0.0; ///< of the values about it, n - 2 degrees of freedom; 0 where n = 2
    [[nodiscard]] double at(double x) const noexcept { return mean_y + slope * (x - mean_x); }
};

/// None below two points or where all x agree. One pass, sums about the first point.
[[nodiscard]] std::optional<Line> fit_line(std::span<const double> x, std::span<const double> y);

} // namespace zeroline::signal
