#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>

#include <algorithm>

namespace zeroline::signal {

/// Least squares of a few functions by the normal equations, one row at a time. Meant for well-scaled columns
/// (constant, centred time, sines): the caller sees to that.
template <int N> class LeastSquares {
public:
    using Row = Eigen::Matrix<double, N, 1>;

    void add(const Row& row, double value) noexcept
    {
        normal_.noalias() += row * row.transpose();
        right_ += row * value;
        squares_ += value * value;
    }

    /// A column that is not to be used: its parameter becomes 0.
    void hold(int column) noexcept { normal_(column, column) += 1.0; }

    /// False where the columns are not independent.
    [[nodiscard]] bool solve() noexcept
    {
        constexpr double kIndependent = 1e-12; // of a column's square: less is rounding
        cholesky_.compute(normal_);
        if (cholesky_.info() != Eigen::Success) {
            return false;
        }
        for (int i = 0; i < N; ++i) {
            const double own = cholesky_.matrixLLT()(i, i);
            if (!(own * own > kIndependent * normal_(i, i))) {
                return false;
            }
        }
        solution_ = cholesky_.solve(right_);
        return true;
    }

    [[nodiscard]] const Row& solution() const noexcept { return solution_; }

    /// Sum of squares that the fit leaves.
    [[nodiscard]] double left() const noexcept { return std::max(0.0, squares_ - solution_.dot(right_)); }

    /// Variance of parameter `i` for unit variance of the values.
    [[nodiscard]] double variance_factor(int i) const noexcept
    {
        return cholesky_.matrixL().solve(Row::Unit(i)).squaredNorm();
    }

private:
    Eigen::Matrix<double, N, N> normal_ = Eigen::Matrix<double, N, N>::Zero();
    Eigen::LLT<Eigen::Matrix<double, N, N>> cholesky_;
    Row right_ = Row::Zero();
    Row solution_ = Row::Zero();
    double squares_ = 0.0;
};

} // namespace zeroline::signal
