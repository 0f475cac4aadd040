#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace zeroline::signal {

template <std::size_t N> using SmallVector = std::array<double, N>;
template <std::size_t N> using SmallMatrix = std::array<SmallVector<N>, N>;

/// Cholesky's decomposition of a symmetric positive definite matrix: `lower` times its transpose is the matrix. Only
/// the lower triangle is read and written. False where the matrix is not positive definite.
template <std::size_t N> [[nodiscard]] bool decompose(const SmallMatrix<N>& matrix, SmallMatrix<N>& lower)
{
    for (std::size_t i = 0; i < N; ++i) {
        for (std::size_t j = 0; j <= i; ++j) {
            double sum = matrix[i][j];
            for (std::size_t k = 0; k < j; ++k) {
                sum -= lower[i][k] * lower[j][k];
            }
            if (i != j) {
                lower[i][j] = sum / lower[j][j];
            } else if (sum > 0.0) {
                lower[i][i] = std::sqrt(sum);
            } else {
                return false;
            }
        }
    }
    return true;
}

/// What the matrix whose decomposition is `lower` turns into `right`.
template <std::size_t N> [[nodiscard]] SmallVector<N> solved(const SmallMatrix<N>& lower, const SmallVector<N>& right)
{
    SmallVector<N> inverse{};
    SmallVector<N> x = right;
    for (std::size_t i = 0; i < N; ++i) {
        inverse[i] = 1.0 / lower[i][i];
        for (std::size_t k = 0; k < i; ++k) {
            x[i] -= lower[i][k] * x[k];
        }
        x[i] *= inverse[i];
    }
    for (std::size_t i = N; i-- > 0;) {
        x[i] *= inverse[i];
        for (std::size_t k = 0; k < i; ++k) {
            x[k] -= lower[i][k] * x[i];
        }
    }
    return x;
}

template <std::size_t N> [[nodiscard]] double product(const SmallVector<N>& a, const SmallVector<N>& b)
{
    double sum = 0.0;
    for (std::size_t i = 0; i < N; ++i) {
        sum += a[i] * b[i];
    }
    return sum;
}

template <std::size_t N>
[[nodiscard]] SmallVector<N> product(const SmallMatrix<N>& matrix, const SmallVector<N>& vector)
{
    SmallVector<N> result{};
    for (std::size_t i = 0; i < N; ++i) {
        result[i] = product(matrix[i], vector);
    }
    return result;
}

} // namespace zeroline::signal
