#include "gui/print/qr_code.hpp"

#include <qrencode.h>

#include <algorithm>
#include <memory>
#include <stdexcept>

namespace zeroline::print {

namespace {

constexpr int kQuietModules = 4;

struct Free {
    void operator()(QRcode* code) const { QRcode_free(code); }
};

/// Dark modules of a row, drawn as one box a run: no fine gaps between neighbours.
void draw_row(PagePainter& painter, const unsigned char* row, int width, QPointF at, double module_mm)
{
    for (int x = 0; x < width;) {
        int end = x;
        while (end < width && (row[end] & 1) != 0) {
            ++end;
        }
        if (end > x) {
            painter.fill({at.x() + x * module_mm, at.y(), (end - x) * module_mm, module_mm * 1.02}, Qt::black);
        }
        x = std::max(end, x + 1);
    }
}

} // namespace

void draw_qr_code(PagePainter& painter, const QRectF& box, const QString& text)
{
    const std::unique_ptr<QRcode, Free> code(QRcode_encodeString8bit(text.toUtf8().constData(), 0, QR_ECLEVEL_M));
    if (!code) {
        throw std::runtime_error("the text is too long for a square code");
    }
    const double side = std::min(box.width(), box.height());
    const double module_mm = side / (code->width + 2 * kQuietModules);
    painter.fill({box.topLeft(), QSizeF(side, side)}, Qt::white);
    for (int y = 0; y < code->width; ++y) {
        const QPointF at = box.topLeft() + QPointF(kQuietModules, kQuietModules + y) * module_mm;
        draw_row(painter, code->data + y * code->width, code->width, at, module_mm);
    }
}

} // namespace zeroline::print
