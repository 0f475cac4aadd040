#include "gui/print/page_painter.hpp"

#include "acquisition/trace/visible_text.hpp"
#include "gui/charts/paint_picture.hpp"

#include <QFontMetricsF>
#include <QPainter>
#include <QPen>
#include <QTextLayout>

#include <algorithm>
#include <cmath>

namespace zeroline::print {

namespace {

constexpr double kMmPerPoint = 25.4 / 72.0;

QPointF device(QPointF mm) { return mm * kUnitsPerMm; }
QRectF device(const QRectF& mm) { return {mm.topLeft() * kUnitsPerMm, mm.size() * kUnitsPerMm}; }

QPen pen_of(const Stroke& stroke)
{
    QPen pen(stroke.colour, stroke.width_mm * kUnitsPerMm);
    pen.setCapStyle(stroke.dash.isEmpty() ? Qt::RoundCap : Qt::FlatCap);
    pen.setJoinStyle(Qt::RoundJoin);
    if (!stroke.dash.isEmpty()) {
        pen.setDashPattern(stroke.dash);
    }
    return pen;
}

/// Nothing from a file turns the order of letters round on paper.
QString visible(const QString& text) { return QString::fromStdString(trace::visible(text.toStdString())); }

/// At words, inside one only where it is wider than a line by itself. The blank at a break belongs to neither line.
void append_broken(const QString& text, double width, const Style& style, QStringList& lines)
{
    QTextLayout layout(text, font_of(style));
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    layout.setTextOption(option);
    layout.beginLayout();
    for (auto line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(width * kUnitsPerMm);
        const auto end = line.textStart() + line.textLength();
        lines << text.mid(line.textStart(), line.textLength()).chopped(end < text.size() && text.at(end - 1) == ' ' ? 1 : 0);
    }
    layout.endLayout();
}

double left_of(double x, double width, Align align)
{
    return align == Align::left ? x : align == Align::right ? x - width : x - width / 2.0;
}

} // namespace

QFont font_of(const Style& style)
{
    QFont font("DejaVu Sans");
    font.setPixelSize(static_cast<int>(std::lround(style.size_pt * kMmPerPoint * kUnitsPerMm)));
    font.setBold(style.bold);
    font.setHintingPreference(QFont::PreferNoHinting);
    // Any spacing at all switches ligatures off: a text copied from the page then holds the letters that were typed.
    font.setLetterSpacing(QFont::AbsoluteSpacing, 0.02);
    return font;
}

double line_height_mm(const Style& style) { return style.size_pt * kMmPerPoint * 1.22; }

double width_mm(const QString& text, const Style& style)
{
    return QFontMetricsF(font_of(style)).horizontalAdvance(text) / kUnitsPerMm;
}

QStringList wrapped(const QString& text, double width, const Style& style)
{
    QStringList lines;
    for (const auto& line : visible(text).split('\n')) {
        append_broken(line, width, style, lines);
    }
    return lines;
}

double text_height_mm(const QString& text, double width, const Style& style)
{
    return text.isEmpty() ? 0.0 : static_cast<double>(wrapped(text, width, style).size()) * line_height_mm(style);
}

Style fitting(const QString& text, const Style& style, double width)
{
    Style smaller = style;
    smaller.size_pt *= std::min(1.0, width / std::max(width_mm(text, style), 1e-6));
    return smaller;
}

double PagePainter::text(const QRectF& box, const QString& text, const Style& style, Align align)
{
    if (text.isEmpty()) {
        return 0.0;
    }
    const double step = line_height_mm(style);
    const double x = align == Align::left ? box.left() : align == Align::right ? box.right() : box.center().x();
    double y = box.top();
    for (const auto& line : wrapped(text, box.width(), style)) {
        text_at({x, y + step / 2.0}, line, style, align);
        y += step;
    }
    return y - box.top();
}

void PagePainter::text_at(QPointF point, const QString& text, const Style& style, Align align)
{
    const QString seen = visible(text);
    const QFont font = font_of(style);
    const QFontMetricsF metrics(font);
    const double x = left_of(point.x() * kUnitsPerMm, metrics.horizontalAdvance(seen), align);
    const double baseline = point.y() * kUnitsPerMm + metrics.capHeight() / 2.0;
    painter_.setFont(font);
    painter_.setPen(style.colour);
    painter_.drawText(QPointF(x, baseline), seen);
}

void PagePainter::text_turned(QPointF middle, double degrees, const QString& text, const Style& style)
{
    painter_.save();
    painter_.translate(device(middle));
    painter_.rotate(-degrees);
    text_at({0.0, 0.0}, text, style, Align::centre);
    painter_.restore();
}

void PagePainter::line(QPointF from, QPointF to, const Stroke& stroke)
{
    painter_.setPen(pen_of(stroke));
    painter_.drawLine(device(from), device(to));
}

void PagePainter::polyline(const QPolygonF& points, const Stroke& stroke)
{
    QPolygonF scaled;
    scaled.reserve(points.size());
    for (const auto& point : points) {
        scaled << device(point);
    }
    painter_.setPen(pen_of(stroke));
    painter_.drawPolyline(scaled);
}

void PagePainter::fill(const QRectF& box, const QColor& colour) { painter_.fillRect(device(box), colour); }

void PagePainter::hatch(const QRectF& box, const QColor& colour)
{
    clip(box);
    constexpr double step = 1.2;
    for (double x = box.left() - box.height(); x < box.right(); x += step) {
        line({x, box.bottom()}, {x + box.height(), box.top()}, {0.12, colour});
    }
    release();
}

void PagePainter::frame(const QRectF& box, const Stroke& stroke)
{
    painter_.setPen(pen_of(stroke));
    painter_.setBrush(Qt::NoBrush);
    painter_.drawRect(device(box));
}

void PagePainter::chart(const charts::Picture& picture, const QRectF& box)
{
    constexpr double unit_mm = 0.2;
    const Style small{.size_pt = 6.2};
    QFont font = font_of(small);
    font.setPixelSize(qRound(small.size_pt * kMmPerPoint / unit_mm));
    font.setHintingPreference(QFont::PreferNoHinting);
    charts::paint(picture, charts::look_of_paper(font), painter_, device(box), unit_mm * kUnitsPerMm);
}

void PagePainter::clip(const QRectF& box)
{
    painter_.save();
    painter_.setClipRect(device(box), Qt::IntersectClip);
}

void PagePainter::release() { painter_.restore(); }

} // namespace zeroline::print
