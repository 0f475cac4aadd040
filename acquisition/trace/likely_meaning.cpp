#include "acquisition/trace/likely_meaning.hpp"

#include "acquisition/trace/units.hpp"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <numeric>
#include <utility>
#include <vector>

namespace zeroline::trace {

namespace {

/// Letters to change, add or leave out to come from one word to the other (Levenshtein's distance).
std::size_t letters_between(std::string_view one, std::string_view other)
{
    std::vector<std::size_t> row(other.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < one.size(); ++i) {
        std::size_t corner = std::exchange(row[0], i + 1);
        for (std::size_t j = 0; j < other.size(); ++j) {
            const auto changed = corner + (one[i] == other[j] ? 0 : 1);
            corner = row[j + 1];
            row[j + 1] = std::min({changed, corner + 1, row[j] + 1});
        }
    }
    return row.back();
}

std::size_t allowed(std::size_t length) { return length <= 3 ? 1 : length <= 8 ? 2 : 3; }

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

std::string significant(double value)
{
    char text[32];
    const auto end = std::to_chars(text, text + sizeof text, value, std::chars_format::general, 6);
    return {text, end.ptr};
}

} // namespace

std::string meant_by_key(std::string_view typed, std::span<const std::string_view> words)
{
    const auto distance = [&](std::string_view word) { return letters_between(typed, word); };
    const auto nearest =
        std::min_element(words.begin(), words.end(), [&](auto a, auto b) { return distance(a) < distance(b); });
    constexpr std::size_t longest = 60;
    if (typed.size() <= longest && nearest != words.end() && distance(*nearest) <= allowed(nearest->size())) {
        return "; did you mean \"" + std::string(*nearest) + "\"?";
    }
    return conversion_of(typed);
}

std::string no_day_because(std::string_view text)
{
    int year = 0;
    unsigned month = 0;
    unsigned day = 0;
    const auto part = [&](std::size_t at, std::size_t length, auto& number) {
        const char* const begin = text.data() + at;
        return std::from_chars(begin, begin + length, number).ptr == begin + length;
    };
    if (text.size() != 10 || text[4] != '-' || text[7] != '-' || !part(0, 4, year) || !part(5, 2, month) ||
        !part(8, 2, day)) {
        return {};
    }
    const auto in_year = std::chrono::year(year) / std::chrono::month(month);
    if (!in_year.ok()) {
        return "; there is no month " + std::string(text.substr(5, 2));
    }
    const auto days = static_cast<unsigned>((in_year / std::chrono::last).day());
    return day >= 1 && day <= days ? std::string()
                                   : "; " + std::string(text.substr(0, 7)) + " has " + std::to_string(days) + " days";
}

std::string conversion_of(std::string_view text)
{
    for (const auto unit : all_pressure_units()) {
        const auto name = name_of(unit);
        // "40 mbar", "40mbar" and "pressure_mbar", but no longer word that ends so.
        const bool at_end =
            text.size() > name.size() && text.ends_with(name) && !is_letter(text[text.size() - name.size() - 1]);
        if (at_end && unit != PressureUnit::cmH2O) {
            return "; pressures stand in cmH2O, 1 " + std::string(name) + " is " + significant(to_cmH2O(1.0, unit)) +
                   " cmH2O";
        }
    }
    return {};
}

} // namespace zeroline::trace
