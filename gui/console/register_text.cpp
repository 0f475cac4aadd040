#include "gui/console/register_text.hpp"

#include "acquisition/trace/visible_text.hpp"
#include "gui/console/local_time.hpp"
#include "gui/console/text_table.hpp"
#include "gui/console/wrapped_text.hpp"
#include "gui/session/csv_cell.hpp"
#include "gui/session/number_text.hpp"

#include <algorithm>

namespace zeroline::console {

using unit_register::QuantityDrift;
using unit_register::Rows;
using unit_register::UnitDrift;

namespace {

std::string heading(std::string column)
{
    std::replace(column.begin(), column.end(), '_', ' ');
    return column;
}

/// Longer texts are cut in a table; JSON and CSV hold them whole.
std::string cell(const Rows& value)
{
    if (value.is_null() || value == "") {
        return "-";
    }
    if (!value.is_string()) {
        return value.dump();
    }
    constexpr std::size_t kLongest = 60;
    const auto text = trace::visible_on_one_line(value.get_ref<const std::string&>());
    return letters_in(text) > kLongest ? cut_to(text, kLongest) + "..." : text;
}

std::string cell_of_register(const Rows& value)
{
    return value.is_null()     ? std::string()
           : value.is_string() ? session::csv_cell(value.get_ref<const std::string&>())
                               : value.dump();
}

std::string rounded(const std::optional<double>& value) { return value ? session::signed_fixed_text(*value, 3) : "-"; }

std::string joined(const std::vector<std::string>& days)
{
    std::string text;
    for (const auto& day : days) {
        text += (text.empty() ? "" : " ") + day;
    }
    return text.empty() ? "-" : text;
}

Rows or_null(const std::string& text) { return text.empty() ? Rows() : Rows(text); }
Rows or_null(const std::optional<double>& value) { return value ? Rows(*value) : Rows(); }

Rows tree_of(const QuantityDrift& one)
{
    return {{"measurand", one.measurand},
            {"preset", one.preset},
            {"compared_with", one.compared_with},
            {"unit", one.unit},
            {"days", one.days},
            {"errors", one.errors},
            {"centre", or_null(one.centre)},
            {"lower", or_null(one.lower)},
            {"upper", or_null(one.upper)},
            {"outside", one.outside},
            {"runs", one.runs},
            {"per_year", or_null(one.per_year)},
            {"per_year_u", or_null(one.per_year_u)},
            {"reaches_limit", or_null(one.reaches_limit)}};
}

} // namespace

std::string rows_as_table(const Rows& rows, const std::vector<std::string>& but)
{
    const auto shown = [&](const std::string& column) {
        return std::find(but.begin(), but.end(), column) == but.end();
    };
    std::vector<std::string> headings;
    for (const auto& [column, value] : rows.front().items()) {
        if (shown(column)) {
            headings.push_back(heading(column));
        }
    }
    TextTable table(headings);
    for (const auto& row : rows) {
        std::vector<std::string> cells;
        for (const auto& [column, value] : row.items()) {
            if (shown(column)) {
                cells.push_back(column == "critical" ? (value == 1 ? "critical" : "-") : cell(value));
            }
        }
        table.add(std::move(cells));
    }
    return table.text();
}

std::string row_as_lines(const Rows& row)
{
    std::size_t widest = 0;
    for (const auto& [column, value] : row.items()) {
        widest = std::max(widest, column.size());
    }
    std::string text;
    for (const auto& [column, value] : row.items()) {
        const auto name = heading(column);
        text +=
            name + std::string(widest + 2 - name.size(), ' ') +
            (value.is_string() && value != "" ? trace::visible_on_one_line(value.get<std::string>()) : cell(value)) +
            '\n';
    }
    return text;
}

std::string rows_as_csv(const Rows& rows)
{
    std::string text;
    if (!rows.empty()) {
        for (const auto& [column, value] : rows.front().items()) {
            text += (text.empty() ? "" : ",") + column;
        }
        text += "\r\n";
    }
    for (const auto& row : rows) {
        std::string line;
        for (const auto& value : row) {
            line += cell_of_register(value) + ",";
        }
        text += line.substr(0, line.size() - 1) + "\r\n";
    }
    return text;
}

namespace {

std::string next_check_text(const UnitDrift& drift)
{
    if (drift.next_check.empty()) {
        return "Next check: not set\n";
    }
    std::string text;
    if (!drift.next_due.empty()) {
        text = (drift.next_due < local_day() ? "Next check: was due on " : "Next check: ") + drift.next_due + ", by " +
               unit_register::kFixedInterval + "\n";
    }
    return drift.next_check == drift.next_due
               ? text
               : text + "Check it sooner: from " + drift.next_check + " on, by " + drift.method + "\n";
}

std::string runs_text(const UnitDrift& drift)
{
    std::string text;
    for (const auto& one : drift.quantities) {
        for (const auto& run : one.runs) {
            text += "Run of " + one.measurand + (one.preset.empty() ? "" : ", " + cell(one.preset)) + ", " + run + "\n";
        }
    }
    return text;
}

} // namespace

std::string drift_text(const UnitDrift& drift, Drifting what)
{
    if (drift.quantities.empty()) {
        return "\nNo verification captured here: nothing is said about drift.\n";
    }
    const bool unit = what == Drifting::unit;
    const std::string each = unit ? "visits" : "checks";
    TextTable table({"quantity", unit ? "preset" : "near", each, "last error", "centre", "lower", "upper", "outside",
                     "a year", "u", "band reaches the limit"});
    for (const auto& one : drift.quantities) {
        table.add({one.measurand + " [" + one.unit + "] against " + one.compared_with, cell(one.preset),
                   std::to_string(one.days.size()), rounded(one.errors.back()), rounded(one.centre), rounded(one.lower),
                   rounded(one.upper), joined(one.outside), rounded(one.per_year), rounded(one.per_year_u),
                   one.reaches_limit.empty() ? "-" : one.reaches_limit});
    }
    return (unit ? "\nE" : "e") + ("rrors over the " + each) + ": limits of individuals (XmR) from two on, line from " +
           std::to_string(unit_register::kVisitsForALine) + "\n" + table.text() + runs_text(drift) +
           next_check_text(drift);
}

Rows drift_tree(const UnitDrift& drift)
{
    auto quantities = Rows::array();
    for (const auto& one : drift.quantities) {
        quantities.push_back(tree_of(one));
    }
    return {{"quantities", quantities},
            {"next_due", or_null(drift.next_due)},
            {"next_check", or_null(drift.next_check)},
            {"method", or_null(drift.method)}};
}

} // namespace zeroline::console
