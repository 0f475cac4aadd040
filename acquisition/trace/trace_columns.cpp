#include "acquisition/trace/trace_columns.hpp"

#include "acquisition/trace/csv_cells.hpp"
#include "acquisition/trace/input_error.hpp"

#include <algorithm>
#include <optional>

namespace zeroline::trace {

namespace {

using Role = TraceColumns::Role;
using Names = std::vector<std::string>;

struct Named {
    std::size_t column = 0;
    std::string_view unit;
};

std::optional<double> per_second(std::string_view unit)
{
    if (unit == "s") {
        return 1.0;
    }
    if (unit == "ms") {
        return 1e3;
    }
    return unit == "us" ? std::optional(1e6) : std::nullopt;
}

bool is_pressure_unit(std::string_view unit) { return pressure_unit_named(unit).has_value(); }
bool is_time_unit(std::string_view unit) { return per_second(unit).has_value(); }

std::string all_of(const Names& names)
{
    std::string list;
    for (std::size_t i = 0; i < std::min<std::size_t>(names.size(), 6); ++i) {
        list += (i == 0 ? "" : ", ") + shown(names[i]);
    }
    return names.size() > 6 ? list + " and more" : list;
}

/// The one column called `stem` with a unit that `fits`.
std::optional<Named> column_called(const Names& names, std::string_view stem, bool (*fits)(std::string_view))
{
    std::optional<Named> found;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string_view name = trimmed(names[i]);
        if (name.size() <= stem.size() + 1 || !name.starts_with(stem) || name[stem.size()] != '_' ||
            !fits(name.substr(stem.size() + 1))) {
            continue;
        }
        if (found) {
            throw InputError("",
                             "two columns hold the " + std::string(stem) + ": " + shown(names[found->column]) +
                                 " and " + shown(name),
                             "one");
        }
        found = Named{i, name.substr(stem.size() + 1)};
    }
    return found;
}

std::optional<std::size_t> column_exactly(const Names& names, std::string_view wanted)
{
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (trimmed(names[i]) != wanted) {
            continue;
        }
        if (found) {
            throw InputError("", "two columns are called " + shown(wanted), "one");
        }
        found = i;
    }
    return found;
}

/// A column that was probably meant: no unit, or one that is not known.
std::string nearly(const Names& names, std::string_view stem)
{
    for (const auto& name : names) {
        if (trimmed(name) == stem) {
            return "column " + shown(name) + " has no unit";
        }
        if (trimmed(name).starts_with(std::string(stem) + "_")) {
            return "column " + shown(name) + " has an unknown unit";
        }
    }
    return {};
}

[[noreturn]] void refuse_missing(const Names& names, std::initializer_list<std::string_view> stems,
                                 const std::string& expected)
{
    for (const auto stem : stems) {
        if (const auto trouble = nearly(names, stem); !trouble.empty()) {
            throw InputError("", trouble, expected);
        }
    }
    throw InputError("", "no " + std::string(*stems.begin()) + " column among " + all_of(names), expected);
}

void find_moment(const Names& names, TraceColumns& columns)
{
    auto moment = column_called(names, "time", is_time_unit);
    if (!moment) {
        moment = column_called(names, "arrival", is_time_unit);
        columns.from_arrivals = moment.has_value();
    }
    if (!moment) {
        refuse_missing(names, {"time", "arrival"}, "time_s, time_ms, time_us or arrival_s");
    }
    columns.roles[moment->column] = Role::moment;
    columns.moments_per_s = *per_second(moment->unit);
}

void find_pressure(const Names& names, TraceColumns& columns)
{
    const auto pressure = column_called(names, "pressure", is_pressure_unit);
    if (!pressure) {
        std::string units;
        for (const auto unit : all_pressure_units()) {
            units += (units.empty() ? "" : ", ") + std::string(name_of(unit));
        }
        refuse_missing(names, {"pressure"}, "pressure_UNIT with a unit of " + units);
    }
    columns.roles[pressure->column] = Role::pressure;
    columns.unit = *pressure_unit_named(pressure->unit);
}

void find_extras(const Names& names, TraceColumns& columns)
{
    if (const auto count = column_exactly(names, "count")) {
        columns.roles[*count] = Role::count;
        columns.has_count = true;
    }
    if (const auto time = column_called(names, "instrument_time", is_time_unit)) {
        columns.roles[time->column] = Role::instrument_time;
        columns.instrument_times_per_s = *per_second(time->unit);
        columns.has_instrument_time = true;
    }
    if (const auto note = column_exactly(names, "note")) {
        columns.roles[*note] = Role::note;
        columns.has_note = true;
    }
}

} // namespace

TraceColumns find_columns(const Names& names)
{
    TraceColumns columns;
    columns.roles.assign(names.size(), Role::ignored);
    find_moment(names, columns);
    find_pressure(names, columns);
    find_extras(names, columns);
    return columns;
}

} // namespace zeroline::trace
