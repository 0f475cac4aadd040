#pragma once

#include "gui/print/page_block.hpp"

namespace zeroline::print {

/// A square code (ISO/IEC 18004, level M) of `text`, with the quiet zone of four modules that a reader needs, filling
/// `box`'s smaller side from its upper left corner. Throws std::runtime_error where the text is too long for one.
void draw_qr_code(PagePainter& painter, const QRectF& box, const QString& text);

} // namespace zeroline::print
