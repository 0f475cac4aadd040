#pragma once

#include <array>
#include <charconv>
#include <cstddef>
#include <cstdint>

namespace zeroline::trace {

/// std::from_chars for a text in which most numbers are plain decimals such as -39.98: up to 15 digits are a whole
/// number that a double holds, over a power of ten that it holds too, so that one division rounds as from_chars does
/// (Clinger 1990). Everything else is left to from_chars.
inline std::from_chars_result read_decimal(const char* begin, const char* limit, double& value) noexcept
{
    constexpr std::array<double, 16> kPower{1.0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                            1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    const bool negative = begin != limit && *begin == '-';
    std::uint64_t whole = 0; // runs over where there are too many digits: not used then
    const auto is_digit = [limit](const char* p) { return p != limit && *p >= '0' && *p <= '9'; };
    const char* const first = begin + static_cast<int>(negative);
    const char* p = first;
    for (; is_digit(p); ++p) {
        whole = 10 * whole + static_cast<std::uint64_t>(*p - '0');
    }
    const char* const point = p;
    if (p != limit && *p == '.') {
        for (++p; is_digit(p); ++p) {
            whole = 10 * whole + static_cast<std::uint64_t>(*p - '0');
        }
    }
    const auto behind = static_cast<std::size_t>(p - point) - 1;
    const bool plain = point != first && p - point > 1 && p - first <= 16;
    if (!plain || p == limit || *p == 'e' || *p == 'E') {
        return std::from_chars(begin, limit, value);
    }
    const double size = static_cast<double>(static_cast<std::int64_t>(whole)) / kPower[behind];
    value = negative ? -size : size;
    return {p, std::errc{}};
}

} // namespace zeroline::trace
