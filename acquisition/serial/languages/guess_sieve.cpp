#include "acquisition/serial/languages/guess_sieve.hpp"

#include "acquisition/serial/languages/number_text.hpp"
#include "acquisition/serial/languages/numeric_lines.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace zeroline::serial {

using trace::Language;

bool is_letter(char c) noexcept { return lower(c) >= 'a' && lower(c) <= 'z'; }

std::vector<std::string_view> parts_of(std::string_view line, const std::string& separator)
{
    std::vector<std::string_view> parts;
    while (true) {
        const auto end = line.find(separator);
        if (const auto part = trimmed(line.substr(0, end)); !part.empty() || separator != " ") {
            parts.push_back(part);
        }
        if (end == std::string_view::npos) {
            return parts;
        }
        line.remove_prefix(end + separator.size());
    }
}

std::vector<Reading> read_with(const Language& language, std::string_view bytes)
{
    NumericLines decoder(language);
    std::vector<Reading> readings;
    decoder.feed(bytes, 0.0, readings);
    std::erase_if(readings, [](const Reading& reading) { return reading.has_note; });
    return readings;
}

namespace {

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

bool is_whole_number(std::string_view text)
{
    return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// Whether two fields are the halves of "-40,03", cut at its comma: digits on both sides and no point. The sign of the
// first half, or a zero that begins the second, tells; without either both may be whole numbers.
struct Halves {
    bool possible = false;
    bool telling = false;
};

Halves halves(std::string_view left, std::string_view right)
{
    const auto digit = [](char c) { return c >= '0' && c <= '9'; };
    const bool meet = !left.empty() && !right.empty() && digit(left.back()) && digit(right.front()) &&
                      left.find('.') == std::string_view::npos && right.find('.') == std::string_view::npos;
    const bool zero = right.size() > 1 && right.front() == '0' && digit(right[1]);
    return {meet, meet && (!is_whole_number(left) || zero)};
}

bool cut_between(const Lines& lines, std::size_t left)
{
    bool telling = false;
    for (const auto line : lines) {
        const auto parts = parts_of(line, ",");
        const auto found = left + 1 < parts.size() ? halves(parts[left], parts[left + 1]) : Halves{};
        if (!found.possible) {
            return false;
        }
        telling = telling || found.telling;
    }
    return telling;
}

bool cuts_a_number(const Language& language, const Lines& lines)
{
    if (language.separator != "," || language.decimal != '.' || language.field < 1 || language.count_field) {
        return false;
    }
    const auto at = static_cast<std::size_t>(language.field - 1);
    return cut_between(lines, at) || (at > 0 && cut_between(lines, at - 1));
}

// Where a mark parts counter and pressure, both together are no number; where a unit tells, bare fragments go.
void drop_fragments(std::vector<Language>& languages, const Lines& lines)
{
    const auto any = [&](const auto& is) { return std::any_of(languages.begin(), languages.end(), is); };
    if (any([](const Language& l) { return l.decimal == ','; })) {
        std::erase_if(languages, [&](const Language& l) { return cuts_a_number(l, lines); });
    }
    if (any([](const Language& l) { return l.unit_field.has_value(); })) {
        std::erase_if(languages, [](const Language& l) { return !l.unit_field; });
    }
    if (any([](const Language& l) { return l.count_field.has_value(); })) {
        std::erase_if(languages, [](const Language& l) { return !l.count_field; });
    }
}

// Another separator that reads the same numbers in the same unit says nothing new: the one on the line stays.
void drop_repeated(std::vector<Language>& languages, std::string_view bytes, std::string_view example)
{
    std::stable_partition(languages.begin(), languages.end(), [example](const Language& language) {
        return example.find(language.separator) != std::string_view::npos;
    });
    const auto values = [bytes](const Language& language) {
        std::vector<double> all;
        for (const Reading& reading : read_with(language, bytes)) {
            all.push_back(reading.value);
        }
        return all;
    };
    std::vector<Language> kept;
    for (const Language& language : languages) {
        const bool known = std::any_of(kept.begin(), kept.end(), [&](const Language& other) {
            return other.unit == language.unit && values(other) == values(language);
        });
        if (!known) {
            kept.push_back(language);
        }
    }
    languages = std::move(kept);
}

bool says_how_it_goes(std::string_view word)
{
    static constexpr std::string_view kStates[] = {"ok", "st", "us", "stable", "unstable", "valid", "on", "run"};
    std::string small(word);
    std::transform(small.begin(), small.end(), small.begin(), lower);
    return std::find(std::begin(kStates), std::end(kStates), small) != std::end(kStates);
}

bool looks_like_a_unit(std::string_view word)
{
    return word.size() > 1 && is_letter(word.front()) && word.find_first_of("=:") == std::string_view::npos &&
           !says_how_it_goes(word);
}

// The word behind a number of a candidate that found no unit; where words stand in front of numbers, they are labels.
std::string word_beside(const Language& language, std::string_view line)
{
    const auto parts = parts_of(line, language.separator);
    const auto number_at = [&](std::size_t i) {
        return i < parts.size() && read_number(parts[i], language.decimal).kind == NumberKind::finite;
    };
    const bool labelled = !parts.empty() && looks_like_a_unit(parts.front());
    for (std::size_t i = 1; i < parts.size(); ++i) {
        if (looks_like_a_unit(parts[i]) && number_at(i - 1) && !(labelled && number_at(i + 1))) {
            return std::string(parts[i]);
        }
    }
    return {};
}

// "-40.03furlong": a number with a word that is no unit.
std::string word_attached(std::string_view line)
{
    const auto digit = line.find_first_of("0123456789");
    if (digit == std::string_view::npos || line.find_first_of("=:") < digit) {
        return {};
    }
    const auto behind = line.find_first_not_of("0123456789.,", digit);
    const auto word = behind == std::string_view::npos ? std::string_view() : trimmed(line.substr(behind));
    const auto whole = word.substr(0, word.find_first_of(" \t,;*"));
    return looks_like_a_unit(whole) ? std::string(whole) : std::string();
}

// A unit that is not known is named, and what would read its numbers as another is no proposal.
void drop_unknown_units(LineGuess& guess, const Lines& lines)
{
    const std::string_view line = lines.back();
    std::erase_if(guess.languages, [&](const Language& language) {
        const auto word = language.unit_field ? std::string() : word_beside(language, line);
        guess.unknown_unit = word.empty() ? guess.unknown_unit : word;
        return !word.empty();
    });
    if (guess.languages.empty() && guess.unknown_unit.empty()) {
        guess.unknown_unit = word_attached(line);
    }
}

} // namespace

void sift(LineGuess& guess, std::string_view bytes, const Lines& lines)
{
    keep_the_likely(guess.languages, lines.back());
    drop_fragments(guess.languages, lines);
    drop_repeated(guess.languages, bytes, lines.back());
    drop_unknown_units(guess, lines);
}

} // namespace zeroline::serial
