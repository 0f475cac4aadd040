#include "acquisition/trace/csv_cells.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstring>

namespace zeroline::trace {

namespace {

const char* end_of_plain_cell(const char* p, char separator) noexcept
{
    while (*p != separator && *p != '\n') {
        ++p;
    }
    return p;
}

CsvCell plain_cell(const char* begin, char separator)
{
    const char* end = end_of_plain_cell(begin, separator);
    if (*end == '\n' && end != begin && end[-1] == '\r') {
        --end;
    }
    const auto length = static_cast<std::size_t>(end - begin);
    return {{begin, length}, end, std::memchr(begin, '\r', length) == nullptr, 0};
}

CsvCell quoted_cell(const char* begin, const char* limit, char separator, std::string& scratch)
{
    scratch.clear();
    CsvCell cell;
    for (const char* p = begin + 1; p != limit; ++p) {
        if (*p != '"') {
            cell.line_breaks += *p == '\n' ? 1 : 0;
            scratch += *p;
        } else if (p + 1 != limit && p[1] == '"') {
            scratch += *p++;
        } else {
            cell.text = scratch;
            cell.end = p + 1;
            cell.well_formed = p + 1 != limit && ends_cell(p + 1, separator);
            return cell;
        }
    }
    return cell;
}

std::optional<double> finite_number(const char* begin, const char* end)
{
    double value = 0.0;
    const auto result = std::from_chars(begin, end, value);
    const bool whole = result.ec == std::errc{} && result.ptr == end;
    return whole && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

std::optional<double> comma_number(std::string_view text)
{
    constexpr std::size_t longest = 400; // a double needs no more digits
    std::array<char, longest> copy;      // only what is copied is read
    if (text.size() > longest || text.find('.') != std::string_view::npos) {
        return std::nullopt;
    }
    std::replace_copy(text.begin(), text.end(), copy.begin(), ',', '.');
    return finite_number(copy.data(), copy.data() + text.size());
}

std::size_t length_of_sequence(unsigned char lead) noexcept
{
    if (lead < 0x80U) {
        return 1;
    }
    if (lead < 0xC2U || lead > 0xF4U) {
        return 0;
    }
    return lead < 0xE0U ? 2 : (lead < 0xF0U ? 3 : 4);
}

bool second_byte_fits(unsigned char lead, unsigned char second) noexcept
{
    const unsigned low = lead == 0xE0U ? 0xA0U : (lead == 0xF0U ? 0x90U : 0x80U);
    const unsigned high = lead == 0xEDU ? 0x9FU : (lead == 0xF4U ? 0x8FU : 0xBFU);
    return second >= low && second <= high;
}

} // namespace

CsvCell read_cell(const char* begin, const char* limit, char separator, std::string& scratch)
{
    return *begin == '"' ? quoted_cell(begin, limit, separator, scratch) : plain_cell(begin, separator);
}

char separator_of(std::string_view header) noexcept
{
    bool quoted = false;
    for (const char c : header) {
        if (c == '"') {
            quoted = !quoted;
        } else if (!quoted && (c == ',' || c == ';')) {
            return c;
        }
    }
    return ',';
}

std::optional<double> number_in(std::string_view cell, char decimal)
{
    auto text = trimmed(cell);
    if (text.size() > 1 && text[0] == '+' && text[1] != '-' && text[1] != '+') {
        text.remove_prefix(1);
    }
    return decimal == ',' ? comma_number(text) : finite_number(text.data(), text.data() + text.size());
}

std::optional<std::int64_t> count_in(std::string_view cell)
{
    const auto text = trimmed(cell);
    std::int64_t value = 0;
    const char* end = text.data() + text.size();
    const auto result = std::from_chars(text.data(), end, value);
    const bool whole = result.ec == std::errc{} && result.ptr == end;
    return whole && value >= 0 && value <= kLargestCount ? std::optional(value) : std::nullopt;
}

std::string_view trimmed(std::string_view text) noexcept
{
    constexpr std::string_view blanks = " \t";
    const auto first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) {
        return {};
    }
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

bool is_utf8(std::string_view text) noexcept
{
    for (std::size_t i = 0; i < text.size();) {
        const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(text[i + k]); };
        const std::size_t length = length_of_sequence(byte(0));
        if (length == 0 || length > text.size() - i || (length > 1 && !second_byte_fits(byte(0), byte(1)))) {
            return false;
        }
        for (std::size_t k = 2; k < length; ++k) {
            if ((byte(k) & 0xC0U) != 0x80U) {
                return false;
            }
        }
        i += length;
    }
    return true;
}

std::string shown(std::string_view text)
{
    constexpr std::size_t longest = 40;
    std::string out = "\"";
    const bool readable = is_utf8(text);
    std::size_t length = std::min(longest, text.size());
    while (readable && length < text.size() && (static_cast<unsigned char>(text[length]) & 0xC0U) == 0x80U) {
        --length;
    }
    for (const char c : text.substr(0, length)) {
        const auto byte = static_cast<unsigned char>(c);
        out += byte < 0x20U || byte == 0x7FU || (byte >= 0x80U && !readable) ? '?' : c;
    }
    return out + (length < text.size() ? "...\"" : "\"");
}

} // namespace zeroline::trace
