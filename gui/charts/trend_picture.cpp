#include "gui/charts/trend_picture.hpp"

#include "gui/charts/limit_strips.hpp"

#include <QCoreApplication>

#include <algorithm>
#include <limits>
#include <utility>

namespace zeroline::charts {

namespace {

constexpr double kOpenEnded = std::numeric_limits<double>::infinity();
constexpr double kFewMonths = 500.0; ///< days up to which months are named, not years

struct TrendPictureWords {
    Q_DECLARE_TR_FUNCTIONS(TrendPictureWords)
};

double day_of(const session::TrendVisit& visit) { return static_cast<double>(visit.day.toJulianDay()); }

bool same_limits(const session::TrendVisit& a, const session::TrendVisit& b)
{
    return a.lower == b.lower && a.upper == b.upper;
}

/// Limits that stay the same are one band.
void add_bands(Picture& picture, const std::vector<session::TrendVisit>& visits)
{
    double from = -kOpenEnded;
    for (std::size_t i = 0; i < visits.size(); ++i) {
        const bool last = i + 1 == visits.size();
        if (!last && same_limits(visits[i], visits[i + 1])) {
            continue;
        }
        const double to = last ? kOpenEnded : 0.5 * (day_of(visits[i]) + day_of(visits[i + 1]));
        if (visits[i].lower || visits[i].upper) {
            picture.areas << Area{from,
                                  to,
                                  visits[i].lower.value_or(-kOpenEnded),
                                  visits[i].upper.value_or(kOpenEnded),
                                  Ground::allowed,
                                  picture.areas.isEmpty() ? TrendPictureWords::tr("tolerance") : QString()};
        }
        from = to;
    }
}

void add_visits(Picture& picture, const std::vector<session::TrendVisit>& visits)
{
    Curve joined{{}, Pen::cycle};
    for (const auto& visit : visits) {
        joined.points << QPointF(day_of(visit), visit.error);
    }
    picture.curves << joined;
    auto u = TrendPictureWords::tr("U"); // the first bar names them all
    for (const auto& visit : visits) {
        const double day = day_of(visit);
        const auto pen = pen_of(visit.tone);
        if (visit.expanded_uncertainty) {
            picture.curves << Curve{
                {{day, visit.error - *visit.expanded_uncertainty}, {day, visit.error + *visit.expanded_uncertainty}},
                pen,
                std::exchange(u, QString())};
        }
        picture.curves << Curve{{{day, visit.error}}, pen, {}, true};
    }
}

void add_level(Picture& picture, const std::optional<double>& level, Pen pen, const QString& name)
{
    if (level) {
        picture.curves << Curve{{{picture.across.low, *level}, {picture.across.high, *level}}, pen, name};
    }
}

Axis heights_of(const session::UnitTrend& trend)
{
    double low = 0.0, high = 0.0;
    const auto take = [&](const std::optional<double>& value) {
        low = value ? std::min(low, *value) : low;
        high = value ? std::max(high, *value) : high;
    };
    for (const auto& visit : trend.visits) {
        const double u = visit.expanded_uncertainty.value_or(0.0);
        for (const auto& value :
             {visit.lower, visit.upper, std::optional(visit.error - u), std::optional(visit.error + u)}) {
            take(value);
        }
    }
    take(trend.lowest);
    take(trend.highest);
    const double room = std::max(0.12 * (high - low), 1e-3);
    return {low - room, high + room, TrendPictureWords::tr("off by, %1").arg(trend.unit)};
}

void add_calendar(Picture& picture)
{
    const bool months = picture.across.high - picture.across.low < kFewMonths;
    const auto first = QDate::fromJulianDay(static_cast<qint64>(picture.across.low));
    QDate begins(first.year(), months ? first.month() : 1, 1);
    while (begins.isValid() && static_cast<double>(begins.toJulianDay()) < picture.across.high) {
        const auto next = months ? begins.addMonths(1) : begins.addYears(1);
        picture.marks << Mark{std::max(picture.across.low, static_cast<double>(begins.toJulianDay())),
                              std::min(picture.across.high, static_cast<double>(next.toJulianDay())),
                              begins.toString(months ? QStringLiteral("yyyy-MM") : QStringLiteral("yyyy"))};
        begins = next;
    }
}

} // namespace

Reach TrendPicture::all() const
{
    if (trend.visits.empty()) {
        return {};
    }
    const double first = day_of(trend.visits.front()), last = day_of(trend.visits.back());
    const double room = std::max(20.0, 0.05 * (last - first));
    return {first - room, last + room};
}

Picture TrendPicture::between(double from_day, double to_day) const
{
    Picture picture;
    picture.across = {from_day, to_day, {}, false};
    picture.up = heights_of(trend);
    add_bands(picture, trend.visits);
    add_level(picture, 0.0, Pen::target, {});
    add_level(picture, trend.centre, Pen::earlier, TrendPictureWords::tr("mean"));
    add_level(picture, trend.lowest, Pen::limit, TrendPictureWords::tr("control limits (XmR)"));
    add_level(picture, trend.highest, Pen::limit, {});
    add_visits(picture, trend.visits);
    add_calendar(picture);
    picture.legend = trend.centre.has_value();
    return picture;
}

} // namespace zeroline::charts
