#pragma once

#include "gui/print/ink.hpp"

#include <functional>
#include <utility>
#include <vector>

namespace zeroline::print {

/// Something that stands on a page in one part: it knows its height for a width, and how to draw itself. Pages are
/// columns of pieces; a piece is never cut by the end of a page.
struct Piece {
    std::function<double(double width)> height;
    std::function<void(Ink& ink, const QRectF& box)> draw;
    double gap_before = 0.0; ///< left out at the top of a page
    bool keeps_next = false; ///< stands on the same page as the piece after it
};

using Pieces = std::vector<Piece>;

/// A text, wrapped.
[[nodiscard]] Piece paragraph(const QString& text, const Style& style = {}, double gap_before = 0.0);

/// A title over what follows, with a fine line.
[[nodiscard]] Piece heading(const QString& text);

/// "label  value" pairs in so many columns, read downwards, column by column.
using Facts = std::vector<std::pair<QString, QString>>;
[[nodiscard]] Piece facts(const Facts& pairs, int columns, double label_mm, double gap_before = 0.0);

/// Pieces side by side, upper edges level: each with its share of the width.
[[nodiscard]] Piece beside(std::vector<std::pair<double, Pieces>> columns, double gutter_mm = 4.0,
                           double gap_before = 0.0);

/// Pieces in a frame, on a ground of their own.
struct Framing {
    QColor ground = Qt::transparent;
    Stroke edge = {};
    double padding_mm = 1.6;
};
[[nodiscard]] Piece framed(Pieces inside, const Framing& framing, double gap_before = 0.0);

/// An empty stretch, or something drawn freely.
[[nodiscard]] Piece drawing(double height_mm, std::function<void(Ink&, const QRectF&)> draw, double gap_before = 0.0);

/// Height of pieces one below the other, and their drawing.
[[nodiscard]] double height_of(const Pieces& pieces, double width);
void draw_all(const Pieces& pieces, Ink& ink, const QRectF& box);

} // namespace zeroline::print
