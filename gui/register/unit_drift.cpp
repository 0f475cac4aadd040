#include "gui/register/unit_drift.hpp"

#include "analysis/metrology/drift.hpp"

#include <QDate>
#include <QString>

#include <algorithm>
#include <array>
#include <map>

namespace zeroline::unit_register {

namespace {

constexpr double kDaysInAYear = 365.25;

/// Readings of one quantity, and its tolerance as of the last visit.
struct Series {
    std::vector<std::string> days;
    std::vector<double> errors, uncertainties;
    metrology::Limits tolerance;
};

using Quantity = std::array<std::string, 4>;

QDate day_of(const std::string& iso) { return QDate::fromString(QString::fromStdString(iso), Qt::ISODate); }

std::optional<double> less(const Value& limit, double target)
{
    return limit.is_null() ? std::nullopt : std::optional(limit.get<double>() - target);
}

void add(std::map<Quantity, Series>& all, const Value& row)
{
    if (row.at("mean").is_null() || row.at("mean_uncertainty").is_null() || row.at("compared_with") == "measured") {
        return;
    }
    auto& series = all[{row.at("measurand"), row.at("preset"), row.at("compared_with"), row.at("unit")}];
    const auto target = row.at("target").is_null() ? 0.0 : row.at("target").get<double>();
    series.days.push_back(row.at("day"));
    series.errors.push_back(row.at("mean").get<double>() - target);
    constexpr double kFactor = 2.0; // of U at 95 %; where few degrees of freedom made it larger, this is cautious
    series.uncertainties.push_back(row.at("mean_uncertainty").get<double>() / kFactor);
    series.tolerance = {less(row.at("lower_limit"), target), less(row.at("upper_limit"), target)};
}

void put_chart(QuantityDrift& drift)
{
    if (const auto chart = metrology::individuals_chart(drift.errors)) {
        drift.centre = chart->centre;
        drift.lower = chart->lower;
        drift.upper = chart->upper;
        for (const auto i : chart->outside) {
            drift.outside.push_back(drift.days[i]);
        }
        for (const auto& run : chart->runs) {
            drift.runs.push_back(drift.days[run.at] + ": " + run.rule);
        }
    }
}

void put_line(QuantityDrift& drift, const Series& series)
{
    const auto first = day_of(series.days.front());
    std::vector<double> years;
    for (const auto& day : series.days) {
        years.push_back(static_cast<double>(first.daysTo(day_of(day))) / kDaysInAYear);
    }
    const bool all_known =
        std::all_of(series.uncertainties.begin(), series.uncertainties.end(), [](double u) { return u > 0.0; });
    const auto line = all_known ? metrology::fit_line(years, series.errors, series.uncertainties)
                                : metrology::fit_line(years, series.errors);
    if (!line) {
        return;
    }
    drift.per_year = line->slope;
    drift.per_year_u = line->slope_u;
    constexpr double kYearsAhead = 10.0;
    if (const auto at = line->leaves(series.tolerance, years.back(), years.back() + kYearsAhead)) {
        const auto days = static_cast<qint64>(*at * kDaysInAYear); // the day before it is reached
        drift.reaches_limit = first.addDays(days).toString(Qt::ISODate).toStdString();
    }
}

} // namespace

UnitDrift drift_of(const Rows& figures)
{
    std::map<Quantity, Series> all;
    UnitDrift unit;
    for (const auto& row : figures) {
        add(all, Value(row));
        unit.next_due = row["next_due"].is_null() ? "" : row["next_due"].get<std::string>();
    }
    unit.next_check = unit.next_due;
    unit.method = unit.next_due.empty() ? "" : kFixedInterval;
    for (const auto& [quantity, series] : all) {
        QuantityDrift drift;
        drift.measurand = quantity[0];
        drift.preset = quantity[1];
        drift.compared_with = quantity[2];
        drift.unit = quantity[3];
        drift.days = series.days;
        drift.errors = series.errors;
        put_chart(drift);
        if (series.days.size() >= kVisitsForALine) {
            put_line(drift, series);
        }
        if (!drift.reaches_limit.empty() && (unit.next_check.empty() || drift.reaches_limit < unit.next_check)) {
            unit.next_check = drift.reaches_limit;
            unit.method = kControlChart;
        }
        unit.quantities.push_back(std::move(drift));
    }
    return unit;
}

} // namespace zeroline::unit_register
