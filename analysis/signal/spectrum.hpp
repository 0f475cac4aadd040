#pragma once

#include <complex>
#include <cstddef>
#include <span>
#include <vector>

namespace zeroline::signal {

/// Discrete Fourier transform of evenly spaced values, padded with zeros to `size` (a power of two, not below the
/// number of values): bins 0 to size / 2.
[[nodiscard]] std::vector<std::complex<double>> transform(std::span<const double> values, std::size_t size);

/// The smallest power of two that is at least `count`.
[[nodiscard]] std::size_t power_of_two_from(std::size_t count) noexcept;

} // namespace zeroline::signal
