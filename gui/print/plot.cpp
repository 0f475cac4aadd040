#include "gui/print/plot.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::print {

namespace {

const Style kTick{.size_pt = 6.0};
const Style kAxis{.size_pt = 6.2, .colour = QColor(0x40, 0x40, 0x40)};
const Stroke kGrid{0.07, QColor(0xc8, 0xc8, 0xc8)};
const Stroke kZero{0.14, QColor(0x70, 0x70, 0x70)};
const Stroke kFrame{0.15, QColor(0x40, 0x40, 0x40)};
const QColor kBandGround(0xE0, 0xF1, 0xEA);
const Stroke kBandEdge{0.14, QColor(0x30, 0x60, 0x50), {5.0, 3.0}};

/// 1, 2 or 5 times a power of ten, so that about `wanted` steps fill the width.
double step_for(double width, double wanted)
{
    const double rough = width / std::max(wanted, 1.0);
    const double power = std::pow(10.0, std::floor(std::log10(rough)));
    for (const double factor : {1.0, 2.0, 5.0}) {
        if (factor * power >= rough) {
            return factor * power;
        }
    }
    return 10.0 * power;
}

std::vector<double> ticks_of(const Range& range, double wanted)
{
    const double step = step_for(range.high - range.low, wanted);
    std::vector<double> ticks;
    for (auto i = std::llround(std::ceil(range.low / step)); static_cast<double>(i) * step <= range.high; ++i) {
        ticks.push_back(static_cast<double>(i) * step);
    }
    return ticks;
}

int decimals_for(const std::vector<double>& ticks)
{
    const double step = ticks.size() > 1 ? ticks[1] - ticks[0] : 1.0;
    return step >= 0.999 ? 0 : step >= 0.0999 ? 1 : 2;
}

constexpr double kMmATickAcross = 14.0;
constexpr double kMmATickUp = 5.0;

} // namespace

void Range::take_in(double value)
{
    low = std::min(low, value);
    high = std::max(high, value);
}

Range Range::padded(double part) const
{
    const double width = std::max(high - low, 1e-3);
    return {low - part * width, high + part * width};
}

Plot::Plot(Ink& ink, const QRectF& box, Range x, Range y) : ink_(ink), box_(box), x_(x), y_(y) {}

QPointF Plot::at(double x, double y) const
{
    return {box_.left() + box_.width() * (x - x_.low) / (x_.high - x_.low),
            box_.bottom() - box_.height() * (y - y_.low) / (y_.high - y_.low)};
}

void Plot::axes(const QString& x_unit, const QString& y_words, const Numerals& numerals)
{
    for (const double x : ticks_of(x_, box_.width() / kMmATickAcross)) {
        ink_.line(at(x, y_.low), at(x, y_.high), kGrid);
    }
    for (const double y : ticks_of(y_, box_.height() / kMmATickUp)) {
        ink_.line(at(x_.low, y), at(x_.high, y), y == 0.0 ? kZero : kGrid);
    }
    ink_.frame(box_, kFrame);
    tick_labels(x_unit, numerals);
    ink_.text_turned({box_.left() - 7.6, box_.center().y()}, 90.0, y_words, kAxis);
}

void Plot::tick_labels(const QString& x_unit, const Numerals& numerals)
{
    const auto across = ticks_of(x_, box_.width() / kMmATickAcross);
    for (const double x : across) {
        const auto words = numerals.signed_fixed(x, decimals_for(across)).remove('+') + " " + x_unit;
        // The last label stays over the plane: beside it the paper may end.
        const double half = width_mm(words, kTick) / 2.0;
        const double middle = std::min(at(x, y_.low).x(), box_.right() - half);
        ink_.text_at({middle, box_.bottom() + 2.0}, words, kTick, Align::centre);
    }
    const auto up = ticks_of(y_, box_.height() / kMmATickUp);
    for (const double y : up) {
        const auto words = numerals.signed_fixed(y, decimals_for(up));
        ink_.text_at(at(x_.low, y) - QPointF(1.0, 0), words, kTick, Align::right);
    }
}

void Plot::band(double from_x, double to_x, std::optional<double> lower, std::optional<double> upper)
{
    const double low = std::max(lower.value_or(y_.low), y_.low);
    const double high = std::min(upper.value_or(y_.high), y_.high);
    const double from = std::max(from_x, x_.low);
    const double to = std::min(to_x, x_.high);
    if (low >= high || from >= to) {
        return;
    }
    ink_.fill({at(from, high), at(to, low)}, kBandGround);
    for (const auto& edge : {lower, upper}) {
        if (edge && *edge >= low && *edge <= high) {
            ink_.line(at(from, *edge), at(to, *edge), kBandEdge);
        }
    }
}

void Plot::curve(const QPolygonF& values, const Stroke& stroke)
{
    QPolygonF points;
    points.reserve(values.size());
    for (const auto& value : values) {
        points << at(value.x(), value.y());
    }
    ink_.clip(box_);
    ink_.polyline(points, stroke);
    ink_.release();
}

void Plot::unknown(double from_x, double to_x)
{
    ink_.hatch({at(from_x, y_.high), at(to_x, y_.low)}, QColor(0x50, 0x50, 0x50));
}

} // namespace zeroline::print
