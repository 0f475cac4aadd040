#include "gui/console/record_csv.hpp"

#include "gui/session/csv_cell.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <charconv>
#include <vector>

namespace zeroline::console {

namespace {

using nlohmann::ordered_json;
using Pointers = std::vector<std::string>; // of JSON, without the slash in front

const Pointers kJudgement = {"measurand",
                             "preset",
                             "against",
                             "span",
                             "unit",
                             "definition",
                             "prescribed",
                             "set",
                             "displayed",
                             "lower",
                             "upper",
                             "basis",
                             "n",
                             "mean",
                             "mean_uncertainty",
                             "repeatability",
                             "worst",
                             "worst_cycle",
                             "expanded_uncertainty",
                             "coverage_factor",
                             "ratio",
                             "probability_outside",
                             "verdict",
                             "critical",
                             "reason/code",
                             "reason/text",
                             "power"};

const Pointers kCycle = {"index", "preset", "span", "start_s", "judged", "why_not_judged", "reversed"};

const Pointers kAnyPhase = {"start_s", "duration_s", "mid_level_duration_s", "duration_uncertainty_s"};

const Pointers kDwell = {"plateau_cmH2O",
                         "plateau_uncertainty_cmH2O",
                         "settled",
                         "peak_cmH2O",
                         "overshoot_percent",
                         "peak_uncertainty_cmH2O",
                         "overshoot_uncertainty_percent",
                         "droop_cmH2O_per_s",
                         "ripple_cmH2O",
                         "oscillation/frequency_hz",
                         "oscillation/frequency_uncertainty_hz",
                         "oscillation/amplitude_cmH2O",
                         "oscillation/amplitude_uncertainty_cmH2O"};

const Pointers kPause = {
    "residual_cmH2O",   "residual_uncertainty_cmH2O",   "release_time_s", "release_time_uncertainty_s",
    "return_to_zero_s", "return_to_zero_uncertainty_s", "returned",       "rest"};

void put(Pointers& columns, const std::string& in_front, const Pointers& more)
{
    for (const auto& pointer : more) {
        columns.push_back(in_front + pointer);
    }
}

Pointers cycle_columns()
{
    auto columns = kCycle;
    for (const std::string phase : {"insufflation/", "exsufflation/"}) {
        const std::string change = phase == "insufflation/" ? "rise" : "swing";
        put(columns, phase, kAnyPhase);
        put(columns, phase, kDwell);
        put(columns, phase, {change + "_time_s", change + "_time_uncertainty_s", "cut", "null_because"});
    }
    put(columns, "pause/", kAnyPhase);
    put(columns, "pause/", kPause);
    put(columns, "pause/", {"cut", "null_because"});
    return columns;
}

std::string heading_of(std::string pointer)
{
    std::replace(pointer.begin(), pointer.end(), '/', '_');
    return pointer;
}

/// What stands there, or null; a level that is null has nothing below it.
ordered_json at(const ordered_json& tree, const std::string& pointer)
{
    const ordered_json::json_pointer place("/" + pointer);
    return tree.contains(place) ? tree.at(place) : ordered_json(nullptr);
}

std::string text_of(const ordered_json& value)
{
    if (value.is_string()) {
        return value.get<std::string>();
    }
    std::string text; // "peak_cmH2O: cut; ripple_cmH2O: cut"
    for (const auto& [key, why] : value.items()) {
        text += (text.empty() ? "" : "; ") + key + ": " + text_of(why);
    }
    return text;
}

std::string cell_of(const ordered_json& value)
{
    if (value.is_null()) {
        return {};
    }
    return value.is_string() || value.is_object() ? session::csv_cell(text_of(value)) : value.dump();
}

std::string headings(const Pointers& columns)
{
    std::string line = "record_number,work_order,asset,origin";
    for (const auto& column : columns) {
        line += "," + heading_of(column);
    }
    return line + "\n";
}

std::string which_record(const ordered_json& record)
{
    std::string cells = cell_of(at(record, "issue/record_number"));
    for (const auto* pointer : {"order/work_order", "unit/asset", "origin"}) {
        cells += "," + cell_of(at(record, pointer));
    }
    return cells;
}

std::string table_of(const ordered_json& record, const std::string& list, const Pointers& columns)
{
    const auto which = which_record(record);
    std::string text = headings(columns);
    for (const auto& row : at(record, list)) {
        text += which;
        for (const auto& column : columns) {
            text += "," + cell_of(at(row, column));
        }
        text += "\n";
    }
    return text;
}

void put_number(std::string& text, double value)
{
    char digits[32];
    const auto end = std::to_chars(std::begin(digits), std::end(digits), value).ptr;
    text.append(digits, end);
}

} // namespace

std::string trace_csv(const trace::Trace& trace)
{
    constexpr std::size_t usual_line = 40;
    std::string text = "time_s,pressure_cmH2O\n";
    text.reserve(text.size() + trace.size() * usual_line);
    for (std::size_t i = 0; i < trace.size(); ++i) {
        put_number(text, trace.time_s[i]);
        text += ',';
        put_number(text, trace.pressure_cmH2O[i]);
        text += '\n';
    }
    return text;
}

std::string judgements_csv(const ordered_json& record) { return table_of(record, "judgements", kJudgement); }

std::string cycles_csv(const ordered_json& record) { return table_of(record, "cycles", cycle_columns()); }

} // namespace zeroline::console
