#include "gui/charts/trend_chart.hpp"

#include "gui/session/shown_number.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::charts {

TrendChart::TrendChart(QWidget* parent) : PlotView(parent)
{
    setObjectName(QStringLiteral("trend"));
    setAccessibleName(tr("how a quantity went over the visits"));
    setAccessibleDescription(tr("Plus and minus zoom, arrow keys move, Home shows all."));
}

void TrendChart::show_trend(session::UnitTrend trend)
{
    trend_ = {std::move(trend)};
    look_at(all());
}

Picture TrendChart::picture(const Reach& part, int /*columns*/) const
{
    if (!trend_.trend.visits.empty()) {
        return trend_.between(part.from, part.to);
    }
    Picture nothing;
    nothing.across = {part.from, part.to, {}, false};
    nothing.up.numbers = false;
    return nothing;
}

std::optional<PlotView::Pointed> TrendChart::pointed(double across) const
{
    const auto& visits = trend_.trend.visits;
    const auto far = [&](const session::TrendVisit& visit) {
        return std::fabs(static_cast<double>(visit.day.toJulianDay()) - across);
    };
    const auto nearest =
        std::min_element(visits.begin(), visits.end(), [&](const auto& a, const auto& b) { return far(a) < far(b); });
    if (nearest == visits.end()) {
        return std::nullopt;
    }
    const int decimals = trend_.trend.decimals;
    auto words = nearest->day.toString(Qt::ISODate) + QStringLiteral(": ") + nearest->sign + u' ' +
                 session::shown_signed(nearest->error, decimals);
    if (nearest->expanded_uncertainty) {
        words += QStringLiteral(" \u00B1 ") + session::shown(*nearest->expanded_uncertainty, decimals);
    }
    return Pointed{{static_cast<double>(nearest->day.toJulianDay()), nearest->error}, words + u' ' + trend_.trend.unit};
}

} // namespace zeroline::charts
