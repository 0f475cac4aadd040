#include "acquisition/serial/languages/line_guess.hpp"

#include "acquisition/serial/languages/guess_sieve.hpp"
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
constexpr std::size_t kManyLines = 8;
constexpr double kReadable = 0.9; ///< of the lines
constexpr int kFieldsTried = 12;
constexpr char kStx = '\x02';
constexpr char kEtx = '\x03';

bool is_digit_or_sign(char c) noexcept { return (c >= '0' && c <= '9') || c == '+' || c == '-'; }

bool is_text(char c) noexcept
{
    const auto byte = static_cast<unsigned char>(c);
    return (byte >= 0x20 && byte <= 0x7e) || c == '\t' || is_line_end(c) || c == kStx || c == kEtx;
}

double text_share(std::string_view bytes)
{
    const auto text = std::count_if(bytes.begin(), bytes.end(), is_text);
    return bytes.empty() ? 0.0 : static_cast<double>(text) / static_cast<double>(bytes.size());
}

// Without the first and the last, which may be cut.
Lines whole_lines(std::string_view bytes, std::string_view ends)
{
    Lines lines;
    std::size_t begin = bytes.find_first_of(ends);
    while (begin != std::string_view::npos) {
        begin = bytes.find_first_not_of(ends, begin);
        const std::size_t end = bytes.find_first_of(ends, begin);
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

bool reads(const Language& language, std::string_view bytes, std::size_t lines)
{
    return static_cast<double>(read_with(language, bytes).size()) >= kReadable * static_cast<double>(lines);
}

/// A field by its number, or by its name and the mark behind that.
struct Place {
    int number = 0;
    std::string name;
    std::string mark = "=";
};

Language with_pressure_at(Language language, const Place& place)
{
    language.field = place.number;
    language.names.pressure = place.name;
    language.name_mark = place.mark;
    return language;
}

Language with_unit_at(Language language, const Place& place)
{
    language.unit_field = place.number;
    language.names.unit = place.name;
    return language;
}

Language with_count_at(Language language, const Place& place)
{
    language.count_field = place.number;
    language.names.count = place.name;
    return language;
}

std::vector<Place> numbered_places()
{
    std::vector<Place> places;
    for (int number = 1; number <= kFieldsTried; ++number) {
        places.push_back({number, {}, "="});
    }
    return places;
}

// NAME=VALUE or NAME:VALUE; a name begins with a letter, which the hour of a time does not.
std::vector<Place> named_places(std::string_view line, const std::string& separator)
{
    std::vector<Place> places;
    for (const auto part : parts_of(line, separator)) {
        const auto mark = part.find_first_of("=:");
        const auto name = trimmed(part.substr(0, mark));
        if (mark != std::string_view::npos && !name.empty() && is_letter(name.front()) && name.size() <= 32) {
            places.push_back({0, std::string(name), std::string(1, part[mark])});
        }
    }
    return places;
}

bool counts_by_one(const Language& language, const Place& place, std::string_view bytes)
{
    const auto readings = read_with(with_count_at(language, place), bytes);
    std::size_t steps = 0;
    for (std::size_t i = 1; i < readings.size(); ++i) {
        steps += readings[i].count == readings[i - 1].count + 1 ? 1U : 0U;
    }
    return readings.size() >= kFewestLines &&
           static_cast<double>(steps) >= kReadable * static_cast<double>(readings.size() - 1);
}

// A clock: no pressure rises from every line to the next.
bool rises_always(const Language& language, std::string_view bytes)
{
    const auto readings = read_with(language, bytes);
    return readings.size() >= kManyLines &&
           std::adjacent_find(readings.begin(), readings.end(), [](const Reading& a, const Reading& b) {
               return !(b.value > a.value);
           }) == readings.end();
}

// The unit of the file is the one that stands on the line, so that nothing is converted.
Language in_unit_on_line(Language language, std::string_view bytes)
{
    NumericLines decoder(language);
    std::vector<Reading> readings;
    decoder.feed(bytes, 0.0, readings);
    language.unit = decoder.latest_unit().value_or(language.unit);
    return language;
}

// The unit stands with the number or right behind it: so it is this number's own.
std::optional<Language> with_own_unit(const Language& language, const Place& pressure, std::string_view bytes,
                                      std::size_t lines)
{
    for (const Place& place : {pressure, Place{pressure.number + 1, {}, pressure.mark}}) {
        const auto candidate = with_unit_at(language, place);
        if ((place.number == pressure.number || pressure.name.empty()) && reads(candidate, bytes, lines)) {
            return in_unit_on_line(candidate, bytes);
        }
    }
    return std::nullopt;
}

std::optional<Language> with_unit_elsewhere(const Language& language, const std::vector<Place>& places,
                                            std::string_view bytes, std::size_t lines)
{
    for (const Place& place : places) {
        const auto candidate = with_unit_at(language, place);
        if (reads(candidate, bytes, lines)) {
            return in_unit_on_line(candidate, bytes);
        }
    }
    return std::nullopt;
}

Language with_checksum(Language language, std::string_view bytes, const Lines& lines)
{
    for (const std::string separator : {"*", "\x03"}) {
        if (lines.back().find(separator) == std::string_view::npos) {
            continue;
        }
        Language checked = language;
        checked.checksum_separator = separator;
        for (const auto kind : {Language::Checksum::xor8, Language::Checksum::crc16_modbus, Language::Checksum::sum8,
                                Language::Checksum::crc16_ccitt}) {
            checked.checksum = kind;
            for (checked.field = 1; checked.field <= kFieldsTried; ++checked.field) {
                if (reads(checked, bytes, lines.size())) {
                    checked.field = 1;
                    return checked;
                }
            }
        }
    }
    return language;
}

// The counter; and the pressure in the first number with a unit of its own, else in the first that is neither count nor
// clock, with a unit that may stand elsewhere on the line.
std::optional<Language> with_fields(const Language& language, const std::vector<Place>& places, std::string_view bytes,
                                    std::size_t lines)
{
    std::optional<Language> with_unit, bare, clock;
    std::optional<Place> counter;
    for (const Place& place : places) {
        const auto at_place = with_pressure_at(language, place);
        const auto united = with_own_unit(at_place, place, bytes, lines);
        if (!united && !reads(at_place, bytes, lines)) {
            continue;
        }
        if (!counter && counts_by_one(united ? *united : at_place, place, bytes)) {
            counter = place;
        } else if (!united && rises_always(at_place, bytes)) {
            clock = clock ? clock : at_place;
        } else if (united) {
            with_unit = with_unit ? with_unit : united;
        } else {
            bare = bare ? bare : at_place;
        }
    }
    bare = bare ? bare : clock;
    const auto far = !with_unit && bare ? with_unit_elsewhere(*bare, places, bytes, lines) : std::nullopt;
    auto pressure = with_unit ? with_unit : far ? far : bare;
    return pressure && counter ? with_count_at(*pressure, *counter) : pressure;
}

// What stands in front of the first number of every line.
std::string common_prefix(const Lines& lines)
{
    const auto first = std::find_if(lines.back().begin(), lines.back().end(), is_digit_or_sign);
    const auto prefix = lines.back().substr(0, static_cast<std::size_t>(first - lines.back().begin()));
    const bool everywhere =
        std::all_of(lines.begin(), lines.end(), [prefix](std::string_view line) { return line.starts_with(prefix); });
    return everywhere && prefix.size() <= 32 ? std::string(prefix) : std::string();
}

std::optional<Language> fitting(const Language& language, std::string_view bytes, const Lines& lines)
{
    const std::string_view line = lines.back().substr(language.frame_start.empty() ? 0 : 1);
    if (auto found = with_fields(language, numbered_places(), bytes, lines.size())) {
        return found;
    }
    if (auto found = with_fields(language, named_places(line, language.separator), bytes, lines.size())) {
        return found;
    }
    Language prefixed = language;
    prefixed.prefix = language.frame_start.empty() ? common_prefix(lines) : std::string();
    return prefixed.prefix.empty() ? std::nullopt : with_fields(prefixed, numbered_places(), bytes, lines.size());
}

std::vector<Language> languages_of(const Language& base, std::string_view bytes, const Lines& lines)
{
    std::vector<Language> found;
    for (const char decimal : {'.', ','}) {
        for (const char* separator : {",", ";", "\t", " "}) {
            if (decimal == ',' && (*separator == ',' || bytes.find(',') == std::string_view::npos)) {
                continue;
            }
            Language language = base;
            language.separator = separator;
            language.decimal = decimal;
            language = with_checksum(language, bytes, lines);
            if (auto fit = fitting(language, bytes, lines)) {
                found.push_back(*fit);
            }
        }
    }
    return found;
}

Language framed(std::string_view bytes)
{
    const auto many = [bytes](char c) {
        return std::count(bytes.begin(), bytes.end(), c) >= static_cast<std::ptrdiff_t>(kFewestLines);
    };
    Language language;
    language.frame_start = many(kStx) ? std::string(1, kStx) : std::string();
    language.frame_end = many(kEtx) ? std::string(1, kEtx) : std::string();
    return language;
}

void guess_languages(LineGuess& guess, std::string_view bytes)
{
    Language base = framed(bytes);
    Lines lines = whole_lines(bytes, "\r\n" + base.frame_end);
    guess.lines = lines.size();
    if (lines.size() < kFewestLines) {
        return;
    }
    guess.example = printable(lines.back());
    guess.languages = languages_of(base, bytes, lines);
    if (guess.languages.empty() && !base.frame_end.empty()) { // a checksum behind the end byte
        base.frame_end.clear();
        lines = whole_lines(bytes, "\r\n");
        guess.languages = lines.size() < kFewestLines ? guess.languages : languages_of(base, bytes, lines);
    }
    if (lines.empty()) {
        return;
    }
    sift(guess, bytes, lines);
    for (const Language& language : guess.languages) {
        guess.reads.push_back(read_with(language, bytes).back().value);
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
    guess_languages(guess, bytes);
    return guess;
}

} // namespace zeroline::serial
