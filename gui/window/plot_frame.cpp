#include "gui/window/plot_frame.hpp"

#include "gui/session/shown_number.hpp"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace zeroline::window {

namespace {

constexpr double kFirstEdge_cmH2O = 50.0;
constexpr double kEdgeStep_cmH2O = 10.0;
constexpr double kFarthest_cmH2O = 10'000.0; // a wrong unit must not make an axis without ticks
constexpr double kMargin_px = 6.0;

QString unit() { return QCoreApplication::translate("PlotFrame", "cmH2O"); }

QColor faint(const QPalette& palette)
{
    auto ink = palette.color(QPalette::WindowText);
    ink.setAlphaF(0.15F);
    return ink;
}

} // namespace

void PlotFrame::lay_out(const QRectF& all, const QFont& font)
{
    const QFontMetricsF metrics(font);
    const double left = metrics.horizontalAdvance(QStringLiteral("+100")) + 2.0 * kMargin_px;
    const double bottom = 2.0 * metrics.height() + kMargin_px;
    const double right = 0.5 * metrics.horizontalAdvance(QStringLiteral("0000")) + kMargin_px;
    area_ = all.adjusted(left, 1.5 * metrics.height() + kMargin_px, -right, -bottom);
    area_.setWidth(std::max(1.0, area_.width()));
    area_.setHeight(std::max(1.0, area_.height()));
}

void PlotFrame::set_times(double from_s, double to_s)
{
    from_s_ = from_s;
    to_s_ = std::max(to_s, from_s + 1e-9);
}

void PlotFrame::widen_to(double pressure_cmH2O)
{
    const double reach = std::min(std::fabs(pressure_cmH2O), kFarthest_cmH2O);
    if (reach > edge_cmH2O_) {
        edge_cmH2O_ = std::ceil(reach / kEdgeStep_cmH2O) * kEdgeStep_cmH2O;
    }
}

void PlotFrame::reset_edges() { edge_cmH2O_ = kFirstEdge_cmH2O; }

double PlotFrame::x(double time_s) const
{
    return area_.left() + (time_s - from_s_) / (to_s_ - from_s_) * area_.width();
}

double PlotFrame::y(double pressure_cmH2O) const
{
    return area_.center().y() - pressure_cmH2O / edge_cmH2O_ * 0.5 * area_.height();
}

double PlotFrame::time_at(double at_x) const { return from_s_ + share_at(at_x) * (to_s_ - from_s_); }

double PlotFrame::share_at(double at_x) const { return (at_x - area_.left()) / area_.width(); }

QPolygonF PlotFrame::line(std::span<const session::LiveSample> samples) const
{
    QPolygonF polygon;
    polygon.reserve(static_cast<qsizetype>(samples.size()));
    for (const auto& sample : samples) {
        polygon << QPointF(x(sample.time_s), y(sample.pressure_cmH2O));
    }
    return polygon;
}

std::vector<double> PlotFrame::ticks(double from, double to, int wanted)
{
    std::vector<double> made;
    if (!(to > from) || wanted < 1) {
        return made;
    }
    const double rough = (to - from) / wanted;
    const double power = std::pow(10.0, std::floor(std::log10(rough)));
    const double share = rough / power;
    const double step = power * (share < 1.5 ? 1.0 : share < 3.5 ? 2.0 : share < 7.5 ? 5.0 : 10.0);
    for (double number = std::ceil(from / step - 1e-9); number * step <= to + 1e-9 * step; number += 1.0) {
        made.push_back(number * step + 0.0);
    }
    return made;
}

void PlotFrame::draw(QPainter& painter, const QPalette& palette, double zero_s, const QString& time_title) const
{
    painter.setPen(QPen(faint(palette), 1.0));
    for (const double pressure : ticks(-edge_cmH2O_, edge_cmH2O_, 10)) {
        painter.drawLine(QPointF(area_.left(), y(pressure)), QPointF(area_.right(), y(pressure)));
    }
    painter.setPen(QPen(palette.color(QPalette::WindowText), 1.0));
    painter.drawLine(QPointF(area_.left(), y(0.0)), QPointF(area_.right(), y(0.0)));
    draw_pressures(painter);
    draw_times(painter, zero_s, time_title);
}

void PlotFrame::draw_pressures(QPainter& painter) const
{
    const double height = painter.fontMetrics().height();
    const int wanted = std::clamp(static_cast<int>(area_.height() / (2.0 * height)), 2, 10);
    for (const double pressure : ticks(-edge_cmH2O_, edge_cmH2O_, wanted)) {
        const QRectF place(0.0, y(pressure) - height / 2.0, area_.left() - kMargin_px, height);
        painter.drawText(place, Qt::AlignRight | Qt::AlignVCenter, session::shown_short_signed(pressure));
    }
    painter.drawText(QRectF(kMargin_px, 0.0, area_.width(), height), Qt::AlignLeft | Qt::AlignVCenter, unit());
}

double PlotFrame::unit_right(const QFontMetrics& metrics) { return kMargin_px + metrics.horizontalAdvance(unit()); }

void PlotFrame::draw_times(QPainter& painter, double zero_s, const QString& title) const
{
    const auto metrics = painter.fontMetrics();
    const double width = metrics.horizontalAdvance(QStringLiteral("-0000.0")) * 1.3;
    const int wanted = std::clamp(static_cast<int>(area_.width() / width), 2, 12);
    for (const double tick : ticks(from_s_ - zero_s, to_s_ - zero_s, wanted)) {
        const double at = x(tick + zero_s);
        painter.drawLine(QPointF(at, area_.bottom()), QPointF(at, area_.bottom() + 4.0));
        painter.drawText(QRectF(at - width / 2.0, area_.bottom() + 4.0, width, metrics.height()), Qt::AlignCenter,
                         session::shown_short(tick));
    }
    // In the middle below the line where it fits, else as wide as the plot with its scale.
    const double line = area_.bottom() + 4.0 + metrics.height();
    const bool fits = metrics.horizontalAdvance(title) <= area_.width();
    const double left = fits ? area_.left() : 0.0;
    painter.drawText(QRectF(left, line, area_.right() - left, metrics.height()), Qt::AlignCenter, title);
}

} // namespace zeroline::window
