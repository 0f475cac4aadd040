#include "gui/console/typed_values.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/session/number_text.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <vector>

namespace zeroline::console {

using session::number_text;
using trace::InputError;

namespace {

// Wide on purpose: a unit found at settings far off is what a check must be able to write down.
constexpr double kHighest_cmH2O = 150.0;
constexpr double kLongest_s = 60.0;

std::string_view trimmed(std::string_view text)
{
    const auto from = text.find_first_not_of(" \t");
    if (from == std::string_view::npos) {
        return {};
    }
    return text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

std::vector<std::string_view> parts(std::string_view text, char separator)
{
    std::vector<std::string_view> out;
    for (;;) {
        const auto at = text.find(separator);
        out.push_back(trimmed(text.substr(0, at)));
        if (at == std::string_view::npos) {
            return out;
        }
        text.remove_prefix(at + 1);
    }
}

std::string in_quotes(std::string_view text) { return "'" + std::string(text) + "'"; }

std::string names_of_presets(const verification::WorkOrder& order)
{
    std::string names;
    for (const auto& preset : order.presets) {
        names += (names.empty() ? "" : ", ") + preset.name;
    }
    return names;
}

} // namespace

double number_typed(std::string_view text, const std::string& what, double low, double high)
{
    std::string plain(trimmed(text));
    std::replace(plain.begin(), plain.end(), ',', '.');
    const char* begin = plain.data() + (plain.starts_with('+') ? 1 : 0);
    const char* end = plain.data() + plain.size();
    double value = 0.0;
    const auto read = std::from_chars(begin, end, value);
    const bool whole = begin != end && read.ec == std::errc{} && read.ptr == end && *begin != '+';
    if (!whole || !std::isfinite(value) || value < low || value > high) {
        throw InputError(what, in_quotes(text), "a number from " + number_text(low) + " to " + number_text(high));
    }
    return value;
}

int whole_number_typed(std::string_view text, const std::string& what, int low, int high)
{
    const double value = number_typed(text, what, low, high);
    if (value != std::floor(value)) {
        throw InputError(what, in_quotes(text),
                         "a whole number from " + std::to_string(low) + " to " + std::to_string(high));
    }
    return static_cast<int>(value);
}

PressurePair pressures_typed(std::string_view text, const std::string& what)
{
    const auto two = parts(text, '/');
    if (two.size() != 2) {
        throw InputError(what, in_quotes(text), "insufflation/exsufflation, such as +40/-40");
    }
    const double insufflation = number_typed(two[0], what, 0.0, kHighest_cmH2O);
    const double exsufflation = number_typed(two[1], what, -kHighest_cmH2O, kHighest_cmH2O);
    return {insufflation, -std::fabs(exsufflation) + 0.0};
}

verification::Displayed displayed_typed(const std::string& text, const verification::WorkOrder& order)
{
    const auto equals = text.rfind('=');
    if (equals == std::string::npos) {
        throw InputError("--displayed", in_quotes(text), "PRESET=insufflation/exsufflation, such as day=+40/-40");
    }
    verification::Displayed displayed;
    displayed.preset = text.substr(0, equals);
    if (order.preset(displayed.preset) == nullptr) {
        throw InputError("--displayed", "unknown preset " + in_quotes(displayed.preset),
                         "one of the order: " + names_of_presets(order));
    }
    const auto pair = pressures_typed(text.substr(equals + 1), "--displayed");
    displayed.insufflation_cmH2O = pair.insufflation_cmH2O;
    displayed.exsufflation_cmH2O = pair.exsufflation_cmH2O;
    displayed.shows = verification::Shows::live;
    return displayed;
}

verification::Settings settings_typed(std::string_view text, const std::string& what)
{
    const auto clean = trimmed(text);
    const auto gap = clean.find_first_of(" \t");
    const auto pair = pressures_typed(clean.substr(0, gap), what);
    verification::Settings settings;
    settings.insufflation_pressure = pair.insufflation_cmH2O;
    settings.exsufflation_pressure = pair.exsufflation_cmH2O;
    if (gap != std::string_view::npos) {
        const auto times = parts(trimmed(clean.substr(gap)), '/');
        if (times.size() != 3) {
            throw InputError(what, in_quotes(text), "times as insufflation/exsufflation/pause, such as 1.5/1.5/2");
        }
        settings.insufflation_duration = number_typed(times[0], what, 0.0, kLongest_s);
        settings.exsufflation_duration = number_typed(times[1], what, 0.0, kLongest_s);
        settings.pause_duration = number_typed(times[2], what, 0.0, kLongest_s);
    }
    return settings;
}

verification::Environment environment_typed(std::string_view text)
{
    verification::Environment environment;
    for (const auto part : parts(text, ';')) {
        for (const auto one : parts(part, ' ')) {
            const auto unit_at = one.find_first_of("Ch%m");
            const auto unit = unit_at == std::string_view::npos ? std::string_view{} : one.substr(unit_at);
            const auto value = one.substr(0, unit_at);
            if (unit == "C") {
                environment.temperature_C = number_typed(value, "--environment", -40.0, 70.0);
            } else if (unit == "hPa") {
                environment.pressure_hPa = number_typed(value, "--environment", 400.0, 1100.0);
            } else if (unit == "%") {
                environment.humidity_percent = number_typed(value, "--environment", 0.0, 100.0);
            } else if (unit == "min") {
                environment.instrument_on_s =
                    60.0 * number_typed(value, "--environment", 1.0, verification::kLongestOn_s / 60.0);
            } else if (!one.empty()) {
                throw InputError("--environment", in_quotes(one), "values such as '22.5C 1008hPa 41% 20min'");
            }
        }
    }
    return environment;
}

verification::ChecklistItem checklist_typed(std::string_view text, const std::string& what)
{
    using Outcome = verification::ChecklistItem::Outcome;
    const auto refuse = [&] {
        throw InputError(what, in_quotes(text), "ITEM=ok, ITEM=not-ok or ITEM=not-applicable, and ': ' with a remark");
    };
    const auto equals = text.find('=');
    if (equals == std::string_view::npos) {
        refuse();
    }
    const auto rest = text.substr(equals + 1);
    const auto colon = rest.find(':');
    verification::ChecklistItem item;
    item.item = trimmed(text.substr(0, equals));
    item.remark = colon == std::string_view::npos ? std::string_view{} : trimmed(rest.substr(colon + 1));
    const auto word = trimmed(rest.substr(0, colon));
    const auto is_it = [&](Outcome outcome) { return word == verification::word_of(outcome); };
    constexpr Outcome kOutcomes[] = {Outcome::ok, Outcome::not_ok, Outcome::not_applicable};
    const auto* const found = std::find_if(std::begin(kOutcomes), std::end(kOutcomes), is_it);
    if (item.item.empty() || found == std::end(kOutcomes)) {
        refuse();
    }
    item.outcome = *found;
    return item;
}

} // namespace zeroline::console
