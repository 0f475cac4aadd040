#pragma once

#include "gui/print/wording.hpp"

namespace zeroline::print {

/// From the lowest to the highest value of an axis.
struct Range {
    double low = 0.0, high = 1.0;

    void take_in(double value);
    /// Wider by this part of its width at both ends; never empty.
    [[nodiscard]] Range padded(double part) const;
};

/// A plane with axes on paper: values to millimetres.
class Plot {
public:
    /// `box` is the inside of the axes.
    Plot(Ink& ink, const QRectF& box, Range x, Range y);

    [[nodiscard]] QPointF at(double x, double y) const;
    [[nodiscard]] const QRectF& box() const { return box_; }

    /// Grid, frame, ticks, and what the axes mean: the unit across, words for what goes up.
    void axes(const QString& x_unit, const QString& y_words, const Numerals& numerals);
    /// Where a value may lie: a light ground between dashed edges. An open side goes to the edge of the plane.
    void band(double from_x, double to_x, std::optional<double> lower, std::optional<double> upper);
    void curve(const QPolygonF& values, const Stroke& stroke);
    /// Nothing is known between two moments.
    void unknown(double from_x, double to_x);

private:
    void tick_labels(const QString& x_unit, const Numerals& numerals);

    Ink& ink_;
    QRectF box_;
    Range x_, y_;
};

/// Room that the axes need left of, and below, the inside of a plot.
inline constexpr double kLeftOfPlot = 9.0;
inline constexpr double kBelowPlot = 4.0;

} // namespace zeroline::print
