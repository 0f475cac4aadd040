#include "acquisition/serial/languages/line_guess.hpp"

#include "acquisition/serial/languages/number_text.hpp"
#include "acquisition/serial/languages/numeric_lines.hpp"
#include "acquisition/serial/languages/shown_text.hpp"

#include <algorithm>
#include <bit>
#include <optional>

namespace zeroline::serial {

namespace {

using trace::Language;
using trace::Parity;

constexpr std::size_t kFewestLines = 3;
constexpr double kReadable = 0.9; ///< of the lines
constexpr int kFieldsTried = 12;

bool is_text(char c) noexcept
{
    const auto byte = static_cast<unsigned char>(c);
    return (byte >= 0x20 && byte <= 0x7e) || c == '\t' || c == '\r' || c == '\n';
}

double text_share(std::string_view bytes)
{
    const auto text = std::count_if(bytes.begin(), bytes.end(), is_text);
    return bytes.empty() ? 0.0 : static_cast<double>(text) / static_cast<double>(bytes.size());
}

// Without the first and the last, which may be cut.
std::vector<std::string_view> whole_lines(std::string_view bytes)
{
    std::vector<std::string_view> lines;
    std::size_t begin = bytes.find_first_of("\r\n");
    while (begin != std::string_view::npos) {
        begin = bytes.find_first_not_of("\r\n", begin);
        const std::size_t end = bytes.find_first_of("\r\n", begin);
        if (begin == std::string_view::npos || end == std::string_view::npos) {
            break;
        }
        lines.push_back(bytes.substr(begin, end - begin));
        begin = end;
    }
    return lines;
}

// Seven data bits and a parity bit, heard as eight data bits: every byte has the parity's sum.
std::optional<Parity> parity_of_seven_bits(std::string_view bytes)
{
    const auto odd = std::count_if(bytes.begin(), bytes.end(), [](char c) {
        return std::popcount(static_cast<unsigned>(static_cast<unsigned char>(c))) % 2 == 1;
    });
    if (bytes.empty() || text_share(bytes) == 1.0) {
        return std::nullopt;
    }
    if (odd == 0) {
        return Parity::even;
    }
    return odd == static_cast<std::ptrdiff_t>(bytes.size()) ? std::optional(Parity::odd) : std::nullopt;
}

std::string without_eighth_bit(std::string_view bytes)
{
    std::string seven(bytes);
    for (char& c : seven) {
        c = static_cast<char>(static_cast<unsigned char>(c) & 0x7FU);
    }
    return seven;
}

std::vector<Reading> read_with(const Language& language, std::string_view bytes)
{
    NumericLines decoder(language);
    std::vector<Reading> readings;
    decoder.feed(bytes, 0.0, readings);
    std::erase_if(readings, [](const Reading& reading) { return reading.has_note; });
    return readings;
}

bool reads(const Language& language, std::string_view bytes, std::size_t lines)
{
    return static_cast<double>(read_with(language, bytes).size()) >= kReadable * static_cast<double>(lines);
}

bool counts_by_one(const Language& language, int field, std::string_view bytes)
{
    Language counting = language;
    counting.count_field = field;
    const auto readings = read_with(counting, bytes);
    std::size_t steps = 0;
    for (std::size_t i = 1; i < readings.size(); ++i) {
        steps += readings[i].count == readings[i - 1].count + 1 ? 1U : 0U;
    }
    return readings.size() >= kFewestLines &&
           static_cast<double>(steps) >= kReadable * static_cast<double>(readings.size() - 1);
}

std::optional<Language> with_unit_on_line(Language language, std::string_view bytes, std::size_t lines)
{
    for (int field = 1; field <= kFieldsTried; ++field) {
        language.unit_field = field;
        if (reads(language, bytes, lines)) {
            return language;
        }
    }
    return std::nullopt;
}

Language with_checksum(Language language, std::string_view bytes, std::size_t lines)
{
    for (const auto kind : {Language::Checksum::xor8, Language::Checksum::crc16_modbus}) {
        Language checked = language;
        checked.checksum = kind;
        if (reads(checked, bytes, lines)) {
            return checked;
        }
    }
    return language;
}

// The counter, and the pressure in the first number that is none.
std::optional<Language> with_fields(Language language, std::string_view bytes, std::size_t lines)
{
    std::optional<Language> pressure;
    for (int field = 1; field <= kFieldsTried; ++field) {
        language.field = field;
        auto candidate = with_unit_on_line(language, bytes, lines);
        if (!candidate && reads(language, bytes, lines)) {
            candidate = language;
        }
        if (candidate && counts_by_one(*candidate, field, bytes)) {
            language.count_field = field;
        } else if (candidate && !pressure) {
            pressure = candidate;
        }
    }
    if (pressure) {
        pressure->count_field = language.count_field;
    }
    return pressure;
}

std::vector<Language> languages_of(std::string_view bytes, std::size_t lines)
{
    std::vector<Language> found;
    for (const char decimal : {'.', ','}) {
        for (const char* separator : {",", ";", "\t", " "}) {
            Language language;
            language.separator = separator;
            language.decimal = decimal;
            language = with_checksum(language, bytes, lines);
            if (decimal == ',' && (language.separator == "," || bytes.find(',') == std::string_view::npos)) {
                continue;
            }
            if (auto fitting = with_fields(language, bytes, lines)) {
                found.push_back(*fitting);
            }
        }
    }
    return found;
}

// A separator that does not stand on the lines reads a lone number as well: keep those that do, else the first.
void keep_the_likely(std::vector<Language>& languages, std::string_view example)
{
    const auto on_line = [example](const Language& language) {
        return example.find(language.separator) != std::string_view::npos;
    };
    if (std::any_of(languages.begin(), languages.end(), on_line)) {
        const bool comma = example.find(',') != std::string_view::npos;
        std::erase_if(languages, [&](const Language& language) {
            return !on_line(language) && !(comma && language.decimal == ',' && language.separator == ";");
        });
    } else if (languages.size() > 1) {
        languages.resize(1);
    }
}

} // namespace

LineGuess guess_lines(std::string_view bytes)
{
    LineGuess guess;
    std::string seven_bits;
    if (const auto parity = parity_of_seven_bits(bytes)) {
        seven_bits = without_eighth_bit(bytes);
        bytes = seven_bits;
        guess.seven_bit_parity = *parity;
    }
    guess.text_share = text_share(bytes);
    const auto lines = whole_lines(bytes);
    guess.lines = lines.size();
    if (lines.size() < kFewestLines) {
        return guess;
    }
    guess.example = printable(lines.back());
    guess.languages = languages_of(bytes, lines.size());
    keep_the_likely(guess.languages, guess.example);
    return guess;
}

} // namespace zeroline::serial
