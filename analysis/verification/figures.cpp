#include "analysis/verification/figures.hpp"

#include <charconv>
#include <cmath>

namespace zeroline::verification {

std::string figure(double value)
{
    constexpr double kLargest = 1e9; // beyond it the decimals say nothing, and the buffer stays small
    constexpr double kSmallest = 0.0005;
    char text[64];
    if (!(std::abs(value) < kLargest) || (value != 0.0 && std::abs(value) < kSmallest)) {
        const auto end = std::to_chars(text, text + sizeof text, value, std::chars_format::general, 3).ptr;
        return {text, end};
    }
    const auto end = std::to_chars(text, text + sizeof text, value, std::chars_format::fixed, 3).ptr;
    std::string out(text, end);
    out.erase(out.find_last_not_of('0') + 1);
    if (out.back() == '.') {
        out.pop_back();
    }
    return out;
}

std::string words_of(const metrology::Limits& limits, const std::string& unit)
{
    if (limits.lower && limits.upper) {
        return figure(*limits.lower) + " to " + figure(*limits.upper) + " " + unit;
    }
    if (limits.upper) {
        return "at most " + figure(*limits.upper) + " " + unit;
    }
    return limits.lower ? "at least " + figure(*limits.lower) + " " + unit : "no limits";
}

} // namespace zeroline::verification
