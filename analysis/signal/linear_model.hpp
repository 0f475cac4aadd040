#pragma once

#include <array>
#include <cmath>
#include <cstddef>

namespace zeroline::signal {

/// Least squares of a few functions by normal equations, one row at a time. Meant for well-scaled columns (constant,
/// centred time, sines): the caller sees to that.
template <std::size_t N> class LinearModel {
public:
    using Row = std::array<double, N>;

    void add(const Row& row, double value) noexcept
    {
        for (std::size_t i = 0; i < N; ++i) {
            for (std::size_t j = 0; j <= i; ++j) {
                normal_[i][j] += row[i] * row[j];
            }
            right_[i] += row[i] * value;
        }
        squares_ += value * value;
        ++count_;
    }

    /// False where the columns are not independent.
    [[nodiscard]] bool solve() noexcept
    {
        std::array<Row, N>& lower = lower_;
        for (std::size_t i = 0; i < N; ++i) {
            for (std::size_t j = 0; j <= i; ++j) {
                double sum = normal_[i][j];
                for (std::size_t k = 0; k < j; ++k) {
                    sum -= lower[i][k] * lower[j][k];
                }
                if (i != j) {
                    lower[i][j] = sum / lower[j][j];
                } else if (sum > 1e-12 * normal_[i][i] && sum > 0.0) {
                    lower[i][i] = std::sqrt(sum);
                } else {
                    return false;
                }
            }
        }
        Row half{};
        explained_ = 0.0;
        for (std::size_t i = 0; i < N; ++i) {
            double sum = right_[i];
            for (std::size_t k = 0; k < i; ++k) {
                sum -= lower[i][k] * half[k];
            }
            half[i] = sum / lower[i][i];
            explained_ += half[i] * half[i];
        }
        for (std::size_t i = N; i-- > 0;) {
            double sum = half[i];
            for (std::size_t k = i + 1; k < N; ++k) {
                sum -= lower[k][i] * solution_[k];
            }
            solution_[i] = sum / lower[i][i];
        }
        return true;
    }

    [[nodiscard]] const Row& solution() const noexcept { return solution_; }
    /// Sum of squares that the fit leaves.
    [[nodiscard]] double left() const noexcept { return squares_ > explained_ ? squares_ - explained_ : 0.0; }
    [[nodiscard]] std::size_t count() const noexcept { return count_; }

    /// Variance of parameter `i` for unit variance of the values.
    [[nodiscard]] double variance_factor(std::size_t i) const noexcept
    {
        Row half{};
        double sum_of_squares = 0.0;
        for (std::size_t r = i; r < N; ++r) {
            double sum = r == i ? 1.0 : 0.0;
            for (std::size_t k = i; k < r; ++k) {
                sum -= lower_[r][k] * half[k];
            }
            half[r] = sum / lower_[r][r];
            sum_of_squares += half[r] * half[r];
        }
        return sum_of_squares;
    }

private:
    std::array<Row, N> normal_{};
    std::array<Row, N> lower_{};
    Row right_{};
    Row solution_{};
    double squares_ = 0.0;
    double explained_ = 0.0;
    std::size_t count_ = 0;
};

} // namespace zeroline::signal
