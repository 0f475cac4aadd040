#pragma once

#include "acquisition/trace/trace_limits.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace zeroline::trace {

/// How one CSV file is written: found out while it is read.
struct CsvStyle {
    char separator = ',';
    char decimal = '.'; ///< '\0': a file with semicolons that has not shown its decimal mark yet
};

/// One cell as it stands in the text, and what follows it.
struct CsvCell {
    std::string_view text;     ///< without the quotes around it; view into the input, or into `scratch`
    const char* end = nullptr; ///< at the separator or line end behind the cell; nullptr: the text ends inside the cell
    bool well_formed = true;   ///< false: something stands between the closing quote and the separator
    std::size_t line_breaks = 0; ///< inside the quotes
};

/// Whether a cell ends in front of `p`. A carriage return counts only before a line feed.
[[nodiscard]] inline bool ends_cell(const char* p, char separator) noexcept
{
    return *p == separator || *p == '\n' || (*p == '\r' && p[1] == '\n');
}

/// Reads the cell that begins at `begin` (RFC 4180: quotes around it, doubled quotes inside). `limit` lies behind a
/// line feed. `scratch` holds the text of cells with doubled quotes.
[[nodiscard]] CsvCell read_cell(const char* begin, const char* limit, char separator, std::string& scratch);

/// The separator of a header line: comma or semicolon, whichever comes first outside quotes.
[[nodiscard]] char separator_of(std::string_view header) noexcept;

/// A number as people and programs write it: spaces around it, a sign, digits, a decimal mark, an exponent. Independent
/// of the locale. Nothing for anything else, also for NaN, infinity and what a double cannot hold.
[[nodiscard]] std::optional<double> number_in(std::string_view cell, char decimal);

/// A whole number from 0 to kLargestCount.
[[nodiscard]] std::optional<std::int64_t> count_in(std::string_view cell);

[[nodiscard]] std::string_view trimmed(std::string_view text) noexcept;

/// `text` in quotes for a message: one line, bounded, valid UTF-8.
[[nodiscard]] std::string shown(std::string_view text);

[[nodiscard]] bool is_utf8(std::string_view text) noexcept;

} // namespace zeroline::trace
