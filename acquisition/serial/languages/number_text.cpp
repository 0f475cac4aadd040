#include "acquisition/serial/languages/number_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace zeroline::serial {

namespace {

constexpr std::size_t kLongestNumber = 64;
// SCPI-99 gives infinity as 9.9E37 and not-a-number as 9.91E37; drivers spell them with more or fewer digits.
constexpr double kScpiInfinity = 9.9e37;
constexpr double kScpiNotANumber = 9.91e37;
constexpr double kScpiTolerance = 1e33;

bool is_digit(char c) noexcept { return c >= '0' && c <= '9'; }

bool is_blank(char c) noexcept { return c == ' ' || c == '\t'; }

bool same_word(std::string_view text, std::string_view word) noexcept
{
    return std::equal(text.begin(), text.end(), word.begin(), word.end(), [](char a, char b) { return lower(a) == b; });
}

NumberText sorted_by_size(double value) noexcept
{
    const double size = std::abs(value);
    if (std::abs(size - kScpiNotANumber) < kScpiTolerance) {
        return {NumberKind::not_a_number, 0.0};
    }
    if (size >= kScpiInfinity - kScpiTolerance) {
        return {NumberKind::overrange, 0.0};
    }
    return {NumberKind::finite, value};
}

NumberText read_word(std::string_view text) noexcept
{
    if (same_word(text, "nan")) {
        return {NumberKind::not_a_number, 0.0};
    }
    if (same_word(text, "inf") || same_word(text, "infinity")) {
        return {NumberKind::overrange, 0.0};
    }
    return {};
}

// std::from_chars knows the point only, and would take a point where the instrument writes commas.
std::optional<std::string_view> with_point(std::string_view text, char decimal,
                                           std::array<char, kLongestNumber>& room) noexcept
{
    if (decimal == '.') {
        return text;
    }
    if (text.find('.') != std::string_view::npos) {
        return std::nullopt;
    }
    std::replace_copy(text.begin(), text.end(), room.begin(), decimal, '.');
    return std::string_view(room.data(), text.size());
}

NumberText read_unsigned(std::string_view text, bool negative, char decimal) noexcept
{
    std::array<char, kLongestNumber> room;
    const auto digits = with_point(text, decimal, room);
    if (!digits) {
        return {};
    }
    double value = 0.0;
    const char* const end = digits->data() + digits->size();
    const auto [stopped, error] = std::from_chars(digits->data(), end, value);
    if (error != std::errc{} || stopped != end) {
        return {};
    }
    return sorted_by_size(negative ? -value : value);
}

} // namespace

std::string_view trimmed(std::string_view text) noexcept
{
    while (!text.empty() && is_blank(text.front())) {
        text.remove_prefix(1);
    }
    while (!text.empty() && is_blank(text.back())) {
        text.remove_suffix(1);
    }
    return text;
}

NumberText read_number(std::string_view text, char decimal)
{
    text = trimmed(text);
    if (text.empty() || text.size() > kLongestNumber) {
        return {};
    }
    const bool negative = text.front() == '-';
    if (negative || text.front() == '+') {
        text = trimmed(text.substr(1));
    }
    if (text.empty()) {
        return {};
    }
    // std::from_chars would take "inf" and "nan" for numbers, and a second sign.
    return is_digit(text.front()) || text.front() == decimal ? read_unsigned(text, negative, decimal) : read_word(text);
}

std::optional<std::int64_t> read_count(std::string_view text)
{
    text = trimmed(text);
    if (text.empty() || !is_digit(text.front())) {
        return std::nullopt;
    }
    std::int64_t count = 0;
    const char* const end = text.data() + text.size();
    const auto [stopped, error] = std::from_chars(text.data(), end, count);
    return error == std::errc{} && stopped == end ? std::optional(count) : std::nullopt;
}

} // namespace zeroline::serial
