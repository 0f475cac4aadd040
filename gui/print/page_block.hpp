#pragma once

#include "gui/print/page_painter.hpp"

#include <functional>
#include <utility>
#include <vector>

namespace zeroline::print {

/// Something that stands on a page in one part: it knows its height for a width, and how to draw itself. Pages are
/// columns of blocks; a block is never cut by the end of a page.
struct PageBlock {
    std::function<double(double width)> height;
    std::function<void(PagePainter& painter, const QRectF& box)> draw;
    double gap_before = 0.0; ///< left out at the top of a page
    bool keeps_next = false; ///< stands on the same page as the block after it
};

using PageBlocks = std::vector<PageBlock>;

/// A text, wrapped.
[[nodiscard]] PageBlock paragraph(const QString& text, const Style& style = {}, double gap_before = 0.0);

/// A title over what follows, with a fine line.
[[nodiscard]] PageBlock heading(const QString& text);

/// "label  value" pairs in so many columns, read downwards, column by column.
using Facts = std::vector<std::pair<QString, QString>>;
[[nodiscard]] PageBlock facts(const Facts& pairs, int columns, double label_mm, double gap_before = 0.0);

/// PageBlocks side by side, upper edges level: each with its share of the width.
[[nodiscard]] PageBlock beside(std::vector<std::pair<double, PageBlocks>> columns, double gutter_mm = 4.0,
                               double gap_before = 0.0);

/// PageBlocks in a frame, on a ground of their own.
struct Framing {
    QColor ground = Qt::transparent;
    Stroke edge = {};
    double padding_mm = 1.6;
};
[[nodiscard]] PageBlock framed(PageBlocks inside, const Framing& framing, double gap_before = 0.0);

/// An empty stretch, or something drawn freely.
[[nodiscard]] PageBlock drawing(double height_mm, std::function<void(PagePainter&, const QRectF&)> draw,
                                double gap_before = 0.0);

/// Height of blocks one below the other, and their drawing.
[[nodiscard]] double height_of(const PageBlocks& blocks, double width);
void draw_all(const PageBlocks& blocks, PagePainter& painter, const QRectF& box);

} // namespace zeroline::print
