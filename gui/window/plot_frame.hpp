#pragma once

#include "gui/session/live_feed.hpp"

#include <QPalette>
#include <QPolygonF>
#include <QRectF>
#include <QString>

#include <span>
#include <vector>

class QFont;
class QFontMetrics;
class QPainter;

namespace zeroline::window {

/// The frame of a picture of pressure over time: what stands where, ticks, grid and their numbers.
///
/// Pressure edges are symmetric about zero, in steps of 10 cmH2O, so that zero stays on a grid line in the middle.
class PlotFrame {
public:
    /// Leaves room for the numbers in that font.
    void lay_out(const QRectF& all, const QFont& font);
    void set_times(double from_s, double to_s);
    /// The edges become at least so wide; they never shrink by themselves.
    void widen_to(double pressure_cmH2O);
    void reset_edges();

    [[nodiscard]] const QRectF& area() const noexcept { return area_; }
    [[nodiscard]] double from_s() const noexcept { return from_s_; }
    [[nodiscard]] double to_s() const noexcept { return to_s_; }
    [[nodiscard]] double edge_cmH2O() const noexcept { return edge_cmH2O_; }
    [[nodiscard]] double x(double time_s) const;
    [[nodiscard]] double y(double pressure_cmH2O) const;
    [[nodiscard]] double time_at(double x) const;
    [[nodiscard]] double share_at(double x) const; ///< 0 at the left edge of the area, 1 at the right
    [[nodiscard]] QPolygonF line(std::span<const session::LiveSample> samples) const;

    /// Grid, axes and numbers. `zero_s`: the moment that is called 0 (the newest sample of a live trace).
    void draw(QPainter& painter, const QPalette& palette, double zero_s, const QString& time_title) const;

    /// Ticks in 1, 2 or 5 times a power of ten, about `wanted` of them.
    [[nodiscard]] static std::vector<double> ticks(double from, double to, int wanted);
    /// Where the unit above the scale of pressures ends, in pixels from the left.
    [[nodiscard]] static double unit_right(const QFontMetrics& metrics);

private:
    void draw_times(QPainter& painter, double zero_s, const QString& title) const;
    void draw_pressures(QPainter& painter) const;

    QRectF area_;
    double from_s_ = 0.0, to_s_ = 1.0;
    double edge_cmH2O_ = 50.0;
};

} // namespace zeroline::window
