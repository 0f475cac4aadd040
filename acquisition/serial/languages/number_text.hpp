#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace zeroline::serial {

/// What a text in the place of a number is.
enum class NumberKind { finite, overrange, not_a_number, none };

struct NumberText {
    NumberKind kind = NumberKind::none;
    double value = 0.0; ///< meant where `finite`
};

/// Reads a number as instruments write it: the forms NR1, NR2 and NR3 of IEEE 488.2, a sign that may stand apart,
/// `decimal` as the decimal mark, no locale. SCPI-99's 9.91E37 is not_a_number, its +-9.9E37 overrange, in any
/// spelling; so are the words nan, inf and infinity in any case. Anything else, also what a double cannot hold, is
/// none. Blanks around the text are ignored.
[[nodiscard]] NumberText read_number(std::string_view text, char decimal = '.');

/// A whole number from 0 on with nothing else around it but blanks, as a counter is written.
[[nodiscard]] std::optional<std::int64_t> read_count(std::string_view text);

[[nodiscard]] constexpr bool is_line_end(char c) noexcept { return c == '\r' || c == '\n'; }

/// Letters of ASCII only: no locale.
[[nodiscard]] constexpr char lower(char c) noexcept
{
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// `text` without spaces and tabs at both ends.
[[nodiscard]] std::string_view trimmed(std::string_view text) noexcept;

} // namespace zeroline::serial
