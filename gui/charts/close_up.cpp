#include "gui/charts/close_up.hpp"

#include "gui/charts/limit_strips.hpp"
#include "gui/charts/trace_picture.hpp"

#include <QCoreApplication>

#include <algorithm>
#include <limits>

namespace zeroline::charts {

namespace {

constexpr double kRoom = 0.3; ///< about what is shown, of its height
constexpr double kOpen = std::numeric_limits<double>::infinity();

struct CloseUpWords {
    Q_DECLARE_TR_FUNCTIONS(CloseUpWords)
};

Curve level(double value, double from_s, double to_s, Pen pen) { return {{{from_s, value}, {to_s, value}}, pen}; }

} // namespace

Axis CloseUp::pressures() const
{
    double low = kOpen, high = -kOpen;
    for (const auto& value : {row.is.lower, row.is.upper, row.is.prescribed, row.is.worst}) {
        low = value ? std::min(low, *value) : low;
        high = value ? std::max(high, *value) : high;
    }
    if (!(high >= low)) {
        return {-1.0, 1.0, CloseUpWords::tr("cmH2O")};
    }
    const double room = std::max(0.5, kRoom * (high - low));
    return {low - room, high + room, CloseUpWords::tr("cmH2O")};
}

Picture CloseUp::between(double from_s_shown, double to_s_shown, int columns) const
{
    auto picture = cycles.between(from_s_shown, to_s_shown, columns, {});
    picture.legend = false;
    picture.areas.clear();
    picture.across.title = CloseUpWords::tr("seconds from onset");
    picture.up = pressures();
    const auto& limits = row.is;
    if (limits.upper) {
        picture.areas << Area{from_s, to_s, *limits.upper, kOpen, Ground::outside};
    }
    if (limits.lower) {
        picture.areas << Area{from_s, to_s, -kOpen, *limits.lower, Ground::outside};
    }
    if (limits.lower || limits.upper) {
        picture.areas << Area{from_s, to_s, limits.lower.value_or(-kOpen), limits.upper.value_or(kOpen),
                              Ground::allowed};
    }
    if (row.is.prescribed) {
        picture.curves << level(*row.is.prescribed, from_s_shown, to_s_shown, Pen::target);
    }
    if (row.is.worst) {
        picture.curves << level(*row.is.worst, from_s, to_s, pen_of(row.tone));
    }
    picture.marks << Mark{from_s_shown, to_s_shown, row.sign + u' ' + CloseUpWords::tr("worst %1").arg(row.worst), 0,
                          false};
    return picture;
}

double ZeroCloseUp::length_s() const
{
    double longest_s = 1.0;
    for (const auto& reading : readings) {
        longest_s = reading.empty() ? longest_s : std::max(longest_s, reading.back().time_s);
    }
    return longest_s;
}

Picture ZeroCloseUp::between(double from_s, double to_s, int columns) const
{
    Picture picture;
    picture.across = {from_s, to_s, CloseUpWords::tr("seconds")};
    double edge = 1.0;
    constexpr Pen pens[] = {Pen::trace, Pen::earlier};
    for (std::size_t i = 0; i < readings.size(); ++i) {
        session::TraceHistory history;
        history.append(readings[i]);
        Curve curve{{}, pens[i % 2], names[i]};
        for (const auto& sample : history.thinned(from_s, to_s, columns)) {
            curve.points << QPointF(sample.time_s, sample.pressure_cmH2O);
            edge = edge_for(sample.pressure_cmH2O, edge);
        }
        picture.curves << curve;
    }
    picture.areas << Area{from_s, to_s, band.low_cmH2O, band.high_cmH2O, Ground::allowed};
    picture.up = {-edge, edge, CloseUpWords::tr("cmH2O")};
    picture.legend = true;
    picture.marks << Mark{from_s, to_s, CloseUpWords::tr("zero readings"), 0, false};
    return picture;
}

} // namespace zeroline::charts
