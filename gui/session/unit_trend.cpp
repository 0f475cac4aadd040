#include "gui/session/unit_trend.hpp"

#include "gui/register/unit_drift.hpp"
#include "gui/session/shown_number.hpp"

#include <QCoreApplication>

#include <algorithm>

namespace zeroline::session {

using unit_register::QuantityDrift;
using unit_register::Rows;

namespace {

struct TrendWords {
    Q_DECLARE_TR_FUNCTIONS(TrendWords)
};

QString word_at(const Rows& row, const char* column)
{
    return row[column].is_string() ? QString::fromStdString(row[column].get<std::string>()) : QString();
}

std::optional<double> figure_at(const Rows& row, const char* column)
{
    return row[column].is_number() ? std::optional(row[column].get<double>()) : std::nullopt;
}

std::optional<double> less_target(const std::optional<double>& value, double target)
{
    return value ? std::optional(*value - target) : std::nullopt;
}

bool is_of(const Rows& row, const QuantityDrift& drift)
{
    return row["measurand"] == drift.measurand && row["preset"] == drift.preset &&
           row["compared_with"] == drift.compared_with && row["unit"] == drift.unit;
}

TrendVisit visit_of(const Rows& row)
{
    const double target = figure_at(row, "target").value_or(0.0);
    const auto outcome = outcome_named(word_at(row, "verdict"));
    const bool judged = row["verdict"].is_string(); // an instrument at its calibration is not
    return {QDate::fromString(word_at(row, "day"), Qt::ISODate),
            *figure_at(row, "mean") - target,
            figure_at(row, "mean_uncertainty"),
            less_target(figure_at(row, "lower_limit"), target),
            less_target(figure_at(row, "upper_limit"), target),
            judged ? tone_of(outcome) : Tone::none,
            judged ? sign_of(outcome) : QString()};
}

QString drift_words(const QuantityDrift& drift, int decimals)
{
    if (!drift.per_year || !drift.per_year_u) {
        return {};
    }
    auto words = TrendWords::tr("%1 %2 a year (standard uncertainty %3).")
                     .arg(shown_signed(*drift.per_year, decimals), QString::fromStdString(drift.unit),
                          shown(*drift.per_year_u, decimals));
    if (!drift.reaches_limit.empty()) {
        words += u' ' + TrendWords::tr("The 95 % band of the line reaches the limit on %1.")
                            .arg(QString::fromStdString(drift.reaches_limit));
    }
    return words;
}

JudgementRow quantity_of(const QuantityDrift& drift)
{
    JudgementRow quantity;
    quantity.measurand = QString::fromStdString(drift.measurand);
    quantity.against = QString::fromStdString(drift.compared_with);
    quantity.unit = QString::fromStdString(drift.unit);
    return quantity;
}

QString name_of(const QuantityDrift& drift)
{
    const auto name = drift.compared_with == "reference" ? TrendWords::tr("indication less reference")
                      : drift.compared_with == unit_register::kSecondGauge
                          ? TrendWords::tr("indication less second gauge")
                          : ResultWords(Reader::screen).measurand(quantity_of(drift));
    return drift.preset.empty() ? name : name + QStringLiteral(" (") + QString::fromStdString(drift.preset) + u')';
}

UnitTrend trend_of(const QuantityDrift& drift, const Rows& figures)
{
    const auto quantity = quantity_of(drift);
    UnitTrend trend;
    trend.name = name_of(drift);
    trend.unit = quantity.unit;
    trend.decimals = quantity.known().decimals;
    for (const auto& row : figures) {
        if (is_of(row, drift) && row["mean"].is_number() && row["mean_uncertainty"].is_number()) {
            trend.visits.push_back(visit_of(row));
        }
    }
    trend.centre = drift.centre;
    trend.lowest = drift.lower;
    trend.highest = drift.upper;
    trend.drift = drift_words(drift, trend.decimals);
    return trend;
}

} // namespace

std::vector<UnitTrend> trends_of(const Rows& figures)
{
    std::vector<UnitTrend> trends;
    for (const auto& drift : unit_register::drift_of(figures).quantities) {
        trends.push_back(trend_of(drift, figures));
    }
    std::stable_partition(trends.begin(), trends.end(), [](const UnitTrend& trend) { return trend.unit == "cmH2O"; });
    std::stable_partition(trends.begin(), trends.end(), [](const UnitTrend& trend) {
        return trend.visits.back().lower || trend.visits.back().upper;
    });
    return trends;
}

NextCheck next_check_of(const Rows& figures, const QDate& today)
{
    const auto drift = unit_register::drift_of(figures);
    NextCheck next;
    if (!drift.next_due.empty()) {
        const auto day = QString::fromStdString(drift.next_due);
        next.words =
            (day < today.toString(Qt::ISODate) ? TrendWords::tr("The next check was due on %1, as the interval says.")
                                               : TrendWords::tr("Next check: %1, as the interval says."))
                .arg(day);
    }
    if (drift.next_check == drift.next_due) {
        return next;
    }
    const auto first = std::find_if(drift.quantities.begin(), drift.quantities.end(),
                                    [&](const auto& one) { return one.reaches_limit == drift.next_check; });
    next.because_of = name_of(*first);
    const bool already = drift.next_check <= first->days.back();
    const auto sooner = already ? TrendWords::tr("Check it sooner: %1 was at its limit or near it at the visit of %2.")
                                      .arg(next.because_of, QString::fromStdString(first->days.back()))
                                : TrendWords::tr("Check it sooner: %1 may reach its limit on %2.")
                                      .arg(next.because_of, QString::fromStdString(drift.next_check));
    next.words = (next.words + u' ' + sooner).trimmed();
    return next;
}

} // namespace zeroline::session
