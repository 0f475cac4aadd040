#include "gui/session/number_text.hpp"

#include <charconv>

namespace zeroline::session {

namespace {

constexpr std::size_t kLongest = 400; ///< digits of the largest double, written out

bool shows_zero(const std::string& text) { return text.find_first_of("123456789") == std::string::npos; }

} // namespace

std::string number_text(double value)
{
    char text[kLongest];
    const auto end = std::to_chars(text, text + sizeof text, value + 0.0);
    return {text, end.ptr};
}

std::string signed_text(double value) { return (value > 0.0 ? "+" : "") + number_text(value); }

std::string fixed_text(double value, int decimals)
{
    char buffer[kLongest];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, decimals);
    std::string text(buffer, end.ptr);
    return text.starts_with('-') && shows_zero(text) ? text.substr(1) : text;
}

std::string signed_fixed_text(double value, int decimals)
{
    const auto text = fixed_text(value, decimals);
    return value > 0.0 && !shows_zero(text) ? "+" + text : text;
}

} // namespace zeroline::session
