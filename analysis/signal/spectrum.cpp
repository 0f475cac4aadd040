#include "analysis/signal/spectrum.hpp"

#include <cmath>
#include <numbers>
#include <utility>

namespace zeroline::signal {
namespace {

void reverse_bits(std::vector<std::complex<double>>& values)
{
    const std::size_t size = values.size();
    for (std::size_t i = 1, j = 0; i < size; ++i) {
        std::size_t bit = size >> 1;
        for (; (j & bit) != 0; bit >>= 1) {
            j ^= bit;
        }
        j ^= bit;
        if (i < j) {
            std::swap(values[i], values[j]);
        }
    }
}

} // namespace

std::size_t power_of_two_from(std::size_t count) noexcept
{
    std::size_t size = 1;
    while (size < count) {
        size <<= 1;
    }
    return size;
}

// Radix two, decimation in time (Cooley and Tukey 1965).
std::vector<std::complex<double>> transform(std::span<const double> values, std::size_t size)
{
    std::vector<std::complex<double>> bins(size);
    for (std::size_t i = 0; i < values.size(); ++i) {
        bins[i] = values[i];
    }
    reverse_bits(bins);
    std::vector<std::complex<double>> turns(size / 2);
    for (std::size_t k = 0; k < turns.size(); ++k) {
        turns[k] = std::polar(1.0, -2.0 * std::numbers::pi * static_cast<double>(k) / static_cast<double>(size));
    }
    for (std::size_t length = 2; length <= size; length <<= 1) {
        const std::size_t stride = size / length;
        for (std::size_t first = 0; first < size; first += length) {
            for (std::size_t k = 0; k < length / 2; ++k) {
                const std::complex<double> turn = turns[k * stride];
                const std::complex<double> odd = bins[first + k + length / 2];
                const std::complex<double> turned{odd.real() * turn.real() - odd.imag() * turn.imag(),
                                                  odd.real() * turn.imag() + odd.imag() * turn.real()};
                bins[first + k + length / 2] = bins[first + k] - turned;
                bins[first + k] += turned;
            }
        }
    }
    bins.resize(size / 2 + 1);
    return bins;
}

} // namespace zeroline::signal
