#pragma once

#include <QColor>
#include <QFont>
#include <QPolygonF>
#include <QRectF>
#include <QString>
#include <QStringList>

class QPainter;

namespace zeroline::charts {
struct Picture;
}

namespace zeroline::print {

/// Device units in a millimetre: the resolution that every page is painted at.
inline constexpr double kUnitsPerMm = 100.0;

/// How a text looks.
struct Style {
    double size_pt = 7.2;
    bool bold = false;
    QColor colour = Qt::black;
};

enum class Align { left, centre, right };

/// How a line looks. `dash` in multiples of the width, empty: solid.
struct Stroke {
    double width_mm = 0.15;
    QColor colour = Qt::black;
    QList<qreal> dash = {};
};

/// Text as it will stand on paper, before there is any paper. All lengths in millimetres.
[[nodiscard]] QFont font_of(const Style& style);
[[nodiscard]] double line_height_mm(const Style& style);
[[nodiscard]] double width_mm(const QString& text, const Style& style);
/// Lines no wider than `width`: broken at blanks, a word that is too long alone anywhere.
[[nodiscard]] QStringList wrapped(const QString& text, double width, const Style& style);
[[nodiscard]] double text_height_mm(const QString& text, double width, const Style& style);

/// The same style, smaller where the text would be wider than `width` on one line.
[[nodiscard]] Style fitting(const QString& text, const Style& style, double width);

/// Draws on a page. All lengths in millimetres from the paper's upper left corner.
class PagePainter {
public:
    explicit PagePainter(QPainter& painter) : painter_(painter) {}

    /// Wraps the text into `box` from its upper edge; returns the height used.
    double text(const QRectF& box, const QString& text, const Style& style, Align align = Align::left);
    /// One line about a point: `align` says which part of the text stands at x; y is the middle of its height.
    void text_at(QPointF point, const QString& text, const Style& style, Align align);
    /// One line about a point, turned by `degrees` counterclockwise.
    void text_turned(QPointF middle, double degrees, const QString& text, const Style& style);
    void line(QPointF from, QPointF to, const Stroke& stroke);
    void polyline(const QPolygonF& points, const Stroke& stroke);
    void fill(const QRectF& box, const QColor& colour);
    void hatch(const QRectF& box, const QColor& colour);
    void frame(const QRectF& box, const Stroke& stroke);
    /// A chart, its letters the size of small print.
    void chart(const charts::Picture& picture, const QRectF& box);
    /// Everything drawn until the next release() stays inside `box`.
    void clip(const QRectF& box);
    void release();

private:
    QPainter& painter_;
};

} // namespace zeroline::print
