#include "analysis/signal/spectrum.hpp"

#include <algorithm>
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

namespace {

std::complex<double> times(std::complex<double> a, std::complex<double> b)
{
    return {a.real() * b.real() - a.imag() * b.imag(), a.real() * b.imag() + a.imag() * b.real()};
}

// exp(-2 pi i k / size) for k below half the size: each from the ones for the binary digits of k.
std::vector<std::complex<double>> turns_of(std::size_t size)
{
    std::vector<std::complex<double>> turns(std::max<std::size_t>(size / 2, 1), 1.0);
    for (std::size_t digit = 1; digit < turns.size(); digit <<= 1) {
        const auto turn =
            std::polar(1.0, -2.0 * std::numbers::pi * static_cast<double>(digit) / static_cast<double>(size));
        for (std::size_t k = 0; k < digit; ++k) {
            turns[digit + k] = times(turn, turns[k]);
        }
    }
    return turns;
}

// Radix two, decimation in time (Cooley and Tukey 1965). `turns` of a transform twice as long.
void transform_in_place(std::vector<std::complex<double>>& bins, const std::vector<std::complex<double>>& turns)
{
    const std::size_t size = bins.size();
    reverse_bits(bins);
    for (std::size_t length = 2; length <= size; length <<= 1) {
        const std::size_t half = length / 2;
        const std::size_t stride = 2 * size / length;
        for (std::size_t first = 0; first < size; first += length) {
            for (std::size_t k = 0; k < half; ++k) {
                const auto turned = times(bins[first + k + half], turns[k * stride]);
                bins[first + k + half] = bins[first + k] - turned;
                bins[first + k] += turned;
            }
        }
    }
}

} // namespace

// Two neighbouring values go through a transform of half the size as one complex value; its bins are taken apart by
// their symmetry.
std::vector<std::complex<double>> transform(std::span<const double> values, std::size_t size)
{
    const std::size_t half = size / 2;
    std::vector<std::complex<double>> pairs(std::max<std::size_t>(half, 1));
    for (std::size_t i = 0; i < values.size(); ++i) {
        auto& pair = pairs[i / 2];
        pair = i % 2 == 0 ? std::complex<double>{values[i], 0.0} : std::complex<double>{pair.real(), values[i]};
    }
    if (half == 0) {
        return pairs;
    }
    const auto turns = turns_of(size);
    transform_in_place(pairs, turns);
    std::vector<std::complex<double>> bins(half + 1);
    for (std::size_t k = 0; k < half; ++k) {
        const auto mirrored = std::conj(pairs[(half - k) % half]);
        const auto even = 0.5 * (pairs[k] + mirrored);
        const auto odd = times(pairs[k] - mirrored, {0.0, -0.5});
        bins[k] = even + times(odd, turns[k]);
    }
    bins[half] = pairs[0].real() - pairs[0].imag();
    return bins;
}

} // namespace zeroline::signal
