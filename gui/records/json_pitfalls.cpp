#include "gui/records/json_pitfalls.hpp"

#include <algorithm>
#include <cctype>
#include <string>

namespace zeroline::records {

using trace::InputError;

namespace {

constexpr std::size_t kFirstBytes = 64;

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

/// Every other byte of plain text in UTF-16 is zero; JSON itself holds no zero byte.
bool is_utf16(std::string_view text)
{
    return text.starts_with("\xff\xfe") || text.starts_with("\xfe\xff") ||
           text.substr(0, kFirstBytes).find('\0') != std::string_view::npos;
}

/// The number with a comma that ends just before or around `byte`: "1,5" of "duration": 1,5.
std::string comma_number(std::string_view text, std::size_t byte)
{
    auto end = std::min(byte, text.size());
    while (end < text.size() && is_digit(text[end])) {
        ++end;
    }
    auto begin = end;
    while (begin > 0 && (is_digit(text[begin - 1]) || text[begin - 1] == ',')) {
        --begin;
    }
    const auto number = text.substr(begin, end - begin);
    const bool one =
        std::count(number.begin(), number.end(), ',') == 1 && !number.starts_with(',') && !number.ends_with(',');
    return one ? std::string(number) : std::string();
}

bool is_typographic(std::string_view at)
{
    constexpr std::string_view marks[] = {"\u201c", "\u201d", "\u201e", "\u00ab", "\u00bb"};
    return std::any_of(std::begin(marks), std::end(marks), [&](auto mark) { return at.starts_with(mark); });
}

/// Where the piece begins that ends just before `byte`: a text in quotes, a word or number, or one sign.
std::size_t piece_begin(std::string_view text, std::size_t byte)
{
    auto at = std::min(byte, text.size()) - 1;
    if (text[at] == '"') {
        while (at > 0 && (text[at - 1] != '"' || (at > 1 && text[at - 2] == '\\'))) {
            --at;
        }
        return at > 0 ? at - 1 : 0;
    }
    const auto is_of_word = [](char c) {
        return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == '.';
    };
    while (at > 0 && is_of_word(text[at]) && is_of_word(text[at - 1])) {
        --at;
    }
    return at;
}

/// A comma that is missing between two values, or stands behind the last one. `expected`: what the parser asked for.
std::optional<InputError> slip_with_a_comma(std::string_view text, std::size_t byte, std::string_view expected)
{
    const auto before = text.substr(0, piece_begin(text, byte)).find_last_not_of(" \t\r\n");
    if (before == std::string_view::npos) {
        return std::nullopt;
    }
    const char last = text[std::min(byte, text.size()) - 1];
    if (text[before] == ',' && (last == ']' || last == '}')) {
        return InputError(place_in(text, before + 1), "a comma behind the last one", "none before a closing bracket");
    }
    const bool would_end = expected.starts_with("'}'") || expected.starts_with("']'");
    if (would_end && text[before] != ',' && last != ']' && last != '}' && last != ':') {
        return InputError(place_in(text, before + 1), "no comma behind this", "a comma between one and the next");
    }
    return std::nullopt;
}

/// Habits of other languages.
std::optional<InputError> foreign_sign(std::string_view text, std::size_t byte)
{
    const char last = text[std::min(byte, text.size()) - 1];
    if (last == '/' || last == '#') {
        return InputError(place_in(text, byte), "a remark", "none: JSON knows no remarks");
    }
    if (last == '\'') {
        return InputError(place_in(text, byte), "a single quotation mark", "the double one: \"");
    }
    return std::nullopt;
}

bool in_another_encoding(std::string_view text, std::size_t byte)
{
    const auto at = static_cast<unsigned char>(byte >= 1 && byte <= text.size() ? text[byte - 1] : '\0');
    const auto before = static_cast<unsigned char>(byte >= 2 && byte - 1 <= text.size() ? text[byte - 2] : '\0');
    return at >= 0x80u || before >= 0x80u;
}

} // namespace

std::string place_in(std::string_view text, std::size_t byte)
{
    const auto before = text.substr(0, std::min(byte, text.size()));
    const auto lines = std::count(before.begin(), before.end(), '\n');
    const auto line_start = before.rfind('\n');
    const auto column = before.size() - (line_start == std::string_view::npos ? 0 : line_start + 1);
    return "line " + std::to_string(lines + 1) + ", column " + std::to_string(std::max<std::size_t>(column, 1));
}

std::optional<InputError> known_pitfall(std::string_view text, std::size_t byte, std::string_view expected)
{
    if (is_utf16(text)) {
        return InputError("line 1", "the file is saved as UTF-16", "UTF-8; in the editor, save it as UTF-8");
    }
    if (const auto number = comma_number(text, byte); !number.empty()) {
        auto pointed = number;
        std::replace(pointed.begin(), pointed.end(), ',', '.');
        return InputError(place_in(text, byte), "a decimal comma in " + number, "a decimal point: " + pointed);
    }
    const auto from = byte > 3 ? byte - 3 : 0;
    for (auto at = from; at < std::min(byte + 1, text.size()); ++at) {
        if (is_typographic(text.substr(at))) {
            return InputError(place_in(text, byte), "a typographic quotation mark", "the plain one: \"");
        }
    }
    if (in_another_encoding(text, byte)) {
        return InputError(place_in(text, byte), "a letter that is not saved as UTF-8",
                          "UTF-8; in the editor, save the file as UTF-8");
    }
    if (byte == 0) {
        return std::nullopt;
    }
    const auto foreign = foreign_sign(text, byte);
    return foreign ? foreign : slip_with_a_comma(text, byte, expected);
}

} // namespace zeroline::records
