#pragma once

#include "gui/print/page_block.hpp"
#include "gui/print/pages.hpp"

#include <QByteArray>
#include <QSizeF>

class QPagedPaintDevice;

namespace zeroline::print {

/// A file inside the PDF.
struct Attachment {
    QString name, mime_type;
    QByteArray bytes;
};

/// Pages in the making: blocks in a column, a footer on every page, a head line from the second page on.
struct Document {
    QString title;
    QString date;   ///< RFC 3339; the PDF's own date. Empty: the day on which time begins
    QSizeF size_mm; ///< of the paper
    double margin_mm = 10.0;
    QString head;   ///< from the second page on
    QString footer; ///< on every page, beside "page 1 of 2"; empty: neither
    QString page_words = "page %1 of %2";
    QString across; ///< written large across every page; empty: nothing
    PageBlocks blocks;
    std::vector<Attachment> attachments;
};

[[nodiscard]] QSizeF size_of(Paper paper);

/// How many pages it takes.
[[nodiscard]] std::size_t page_count(const Document& document);

/// Draws every page on that device, in its own resolution, from the edges of the paper. Throws trace::InputError where
/// the font is not installed.
void draw(const Document& document, QPagedPaintDevice& on);

/// The bytes of the PDF: a function of the document alone. Throws trace::InputError where the font is not installed.
[[nodiscard]] QByteArray pdf_of(const Document& document);

} // namespace zeroline::print
