#include "gui/print/document.hpp"

#include "acquisition/trace/input_error.hpp"

#include <QBuffer>
#include <QDateTime>
#include <QFontInfo>
#include <QHashFunctions>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>

#include <cmath>
#include <numbers>

namespace zeroline::print {

namespace {

constexpr double kMmPerInch = 25.4;
constexpr int kUnitsPerInch = static_cast<int>(kMmPerInch * kUnitsPerMm);
constexpr double kFooterHeight = 6.0;
const Style kSmall{.size_pt = 6.2, .colour = QColor(0x40, 0x40, 0x40)};
const QColor kAcrossColour(0xe4, 0xe4, 0xe4);

struct Placed {
    const PageBlock* block;
    QRectF box;
};
using Page = std::vector<Placed>;

/// Where blocks may stand on a page.
QRectF body_of(const Document& document, std::size_t page)
{
    const double margin = document.margin_mm;
    QRectF body(QPointF(margin, margin), document.size_mm - QSizeF(2 * margin, 2 * margin));
    if (!document.footer.isEmpty()) {
        // The footer takes its room from the lower margin first.
        body.setBottom(body.bottom() - kFooterHeight + margin / 3.0);
    }
    if (page > 0 && !document.head.isEmpty()) {
        body.setTop(body.top() + line_height_mm(kSmall) + 1.5);
    }
    return body;
}

/// Height of a block with those it keeps on its page.
double group_height(const PageBlocks& blocks, std::size_t first, double width)
{
    double height = blocks[first].height(width);
    for (std::size_t i = first; blocks[i].keeps_next && i + 1 < blocks.size(); ++i) {
        height += blocks[i + 1].gap_before + blocks[i + 1].height(width);
    }
    return height;
}

std::vector<Page> pages_of(const Document& document)
{
    std::vector<Page> pages(1);
    QRectF body = body_of(document, 0);
    double y = body.top();
    bool kept = false;
    for (std::size_t i = 0; i < document.blocks.size(); ++i) {
        const auto& block = document.blocks[i];
        const double gap = pages.back().empty() ? 0.0 : block.gap_before;
        const bool full = y + gap + group_height(document.blocks, i, body.width()) > body.bottom();
        if (full && !kept && !pages.back().empty()) {
            pages.emplace_back();
            body = body_of(document, pages.size() - 1);
            y = body.top();
        } else {
            y += gap;
        }
        const double height = block.height(body.width());
        pages.back().push_back({&block, {body.left(), y, body.width(), height}});
        y += height;
        kept = block.keeps_next;
    }
    return pages;
}

void draw_frame(const Document& document, PagePainter& painter, std::size_t page, std::size_t count)
{
    const QRectF paper(QPointF(0, 0), document.size_mm);
    const double margin = document.margin_mm;
    if (!document.across.isEmpty()) {
        const double diagonal = std::hypot(paper.width(), paper.height());
        const double turn = std::atan2(paper.height(), paper.width()) * 180.0 / std::numbers::pi;
        const Style one{.size_pt = 10.0, .bold = true, .colour = kAcrossColour};
        const Style across{
            .size_pt = 10.0 * 0.72 * diagonal / width_mm(document.across, one), .bold = true, .colour = kAcrossColour};
        painter.text_turned(paper.center(), turn, document.across, across);
    }
    if (page > 0 && !document.head.isEmpty()) {
        painter.text({margin, margin, paper.width() - 2 * margin, 0}, document.head, kSmall);
    }
    if (!document.footer.isEmpty()) {
        const double y = paper.bottom() - margin * 2.0 / 3.0 - kFooterHeight / 2.0 + 1.6;
        painter.line({margin, y - 2.2}, {paper.right() - margin, y - 2.2}, {0.12, QColor(0x80, 0x80, 0x80)});
        const double room = paper.width() - 2 * margin - width_mm(document.page_words, kSmall) - 4.0;
        painter.text_at({margin, y}, document.footer, fitting(document.footer, kSmall, room), Align::left);
        painter.text_at({paper.right() - margin, y}, document.page_words.arg(page + 1).arg(count), kSmall,
                        Align::right);
    }
}

/// The PDF names the moment it was made. The same record gives the same bytes only if that is the record's own moment:
/// it has a fixed length, so that writing over it moves nothing.
void put_date(QByteArray& pdf, const QString& date)
{
    const auto moment = QDateTime::fromString(date, Qt::ISODate).toUTC();
    const QByteArray text = moment.isValid() ? moment.toString("yyyyMMddHHmmss").toLatin1() : "19700101000000";
    const QByteArray key = "/CreationDate (D:";
    const auto at = pdf.indexOf(key);
    const auto end = at < 0 ? -1 : pdf.indexOf(')', at);
    if (end < 0) {
        return;
    }
    const auto from = at + key.size();
    const QByteArray zone = "+00'00'";
    pdf.replace(from, end - from, (text + zone).leftJustified(end - from, ' ', true));
}

void demand_font()
{
    if (QFontInfo(font_of({})).family() != "DejaVu Sans") {
        throw trace::InputError("fonts", "DejaVu Sans is not installed", "the package fonts-dejavu-core");
    }
}

/// Qt writes fonts in the order of a hash, whose seed is another one in each process: while a page is made it is fixed.
/// A hash that is there already keeps the seed that it was made with.
struct FixedOrder {
    FixedOrder() { QHashSeed::setDeterministicGlobalSeed(); }
    ~FixedOrder() { QHashSeed::resetRandomGlobalSeed(); }
    FixedOrder(const FixedOrder&) = delete;
    FixedOrder& operator=(const FixedOrder&) = delete;
};

void set_up(QPdfWriter& writer, const Document& document)
{
    writer.setResolution(kUnitsPerInch);
    writer.setPageSize(QPageSize(document.size_mm, QPageSize::Millimeter, {}, QPageSize::ExactMatch));
    writer.setPageMargins(QMarginsF(0, 0, 0, 0));
    writer.setTitle(document.title);
    writer.setCreator("zeroline");
    for (const auto& file : document.attachments) {
        writer.addFileAttachment(file.name, file.bytes, file.mime_type);
    }
}

} // namespace

QSizeF size_of(Paper paper) { return paper == Paper::a4 ? QSizeF(210.0, 297.0) : QSizeF(215.9, 279.4); }

std::size_t page_count(const Document& document) { return pages_of(document).size(); }

void draw(const Document& document, QPagedPaintDevice& on)
{
    demand_font();
    QPainter device(&on);
    if (on.logicalDpiX() != kUnitsPerInch) {
        const double per_unit = static_cast<double>(on.logicalDpiX()) / kUnitsPerInch;
        device.scale(per_unit, per_unit);
    }
    PagePainter painter(device);
    const auto pages = pages_of(document);
    for (std::size_t page = 0; page < pages.size(); ++page) {
        if (page > 0) {
            on.newPage();
        }
        draw_frame(document, painter, page, pages.size());
        for (const auto& placed : pages[page]) {
            placed.block->draw(painter, placed.box);
        }
    }
}

QByteArray pdf_of(const Document& document)
{
    const FixedOrder fixed;
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        set_up(writer, document);
        draw(document, writer);
    }
    QByteArray pdf = buffer.data();
    put_date(pdf, document.date);
    return pdf;
}

} // namespace zeroline::print
