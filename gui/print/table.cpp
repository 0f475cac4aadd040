#include "gui/print/table.hpp"

#include <algorithm>
#include <memory>
#include <numeric>

namespace zeroline::print {

namespace {

constexpr double kPadding = 0.5;
constexpr double kGutter = 1.6;
const Stroke kRule{0.08, QColor(0xb0, 0xb0, 0xb0)};
const Stroke kHeadRule{0.2, Qt::black};

using Cells = std::vector<Cell>;

constexpr double kChip = 4.6;

Style style_of(const Cell& cell, double size_pt) { return {size_pt, cell.bold}; }

double room_for_sign(const Cell& cell) { return cell.sign.isEmpty() ? 0.0 : kChip + 1.0; }

/// What the columns of a table have of its width, and less than which would break a word.
class Columns {
public:
    explicit Columns(const Table& table)
    {
        for (const auto& column : table.columns) {
            shares_.push_back(column.share);
            least_.push_back(0.0);
            gives_.push_back(column.align == Align::left);
        }
        for (const auto& cells : table.rows) {
            for (std::size_t i = 0; i < cells.size(); ++i) {
                gives_[i] = gives_[i] && cells[i].sign.isEmpty();
                least_[i] = std::max(least_[i], longest_word(cells[i], table.size_pt) + 2 * kHair);
            }
        }
    }

    /// By their shares; a verdict is never broken inside a word while a column of words can do with less.
    [[nodiscard]] std::vector<double> widths(double whole) const
    {
        const double sum = std::accumulate(shares_.begin(), shares_.end(), 0.0);
        std::vector<double> widths;
        double missing = 0.0;
        double spare = 0.0;
        for (std::size_t i = 0; i < shares_.size(); ++i) {
            widths.push_back(shares_[i] / sum * whole);
            missing += gives_[i] ? 0.0 : std::max(0.0, least_[i] - widths[i]);
            spare += gives_[i] ? std::max(0.0, widths[i] - least_[i]) : 0.0;
        }
        const double given = spare > 0.0 ? std::min(1.0, missing / spare) : 0.0;
        const double had = missing > 0.0 ? std::min(1.0, spare / missing) : 0.0;
        for (std::size_t i = 0; i < widths.size(); ++i) {
            const double slack = widths[i] - least_[i];
            widths[i] -= gives_[i] ? given * std::max(0.0, slack) : had * std::min(0.0, slack);
        }
        return widths;
    }

private:
    static constexpr double kHair = 0.05; ///< of a millimetre: what fits exactly is not broken by rounding

    static double longest_word(const Cell& cell, double size_pt)
    {
        double longest = 0.0;
        for (const auto& word : cell.text.split(u' ')) {
            longest = std::max(longest, width_mm(word, style_of(cell, size_pt)));
        }
        return longest + kGutter + room_for_sign(cell);
    }

    std::vector<double> shares_, least_;
    std::vector<bool> gives_; ///< words, which wrap
};

double row_height(const Cells& cells, const std::vector<double>& widths, double size_pt)
{
    double tallest = line_height_mm({.size_pt = size_pt});
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const double room = widths[i] - kGutter - room_for_sign(cells[i]);
        tallest = std::max(tallest, text_height_mm(cells[i].text, room, style_of(cells[i], size_pt)));
    }
    return tallest + 2 * kPadding;
}

void draw_sign(const Cell& cell, double size_pt, PagePainter& painter, QPointF at)
{
    const QRectF chip(at, QSizeF(kChip, line_height_mm({.size_pt = size_pt}) + 0.2));
    painter.fill(chip, cell.ground);
    painter.frame(chip, {0.08, QColor(0x60, 0x60, 0x60)});
    painter.text_at(chip.center(), cell.sign, {size_pt, true, cell.sign_colour}, Align::centre);
}

void draw_row(const Cells& cells, const std::vector<double>& widths, double size_pt, PagePainter& painter,
              const QRectF& box)
{
    double x = box.left();
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const double width = widths[i];
        const double left = x + kGutter / 2;
        const double room = room_for_sign(cells[i]);
        if (!cells[i].sign.isEmpty()) {
            draw_sign(cells[i], size_pt, painter, {left, box.top() + kPadding - 0.1});
        }
        const QRectF place(left + room, box.top() + kPadding, width - kGutter - room, box.height());
        painter.text(place, cells[i].text, style_of(cells[i], size_pt), cells[i].align);
        x += width;
    }
}

PageBlock row_piece(Cells cells, const std::shared_ptr<const Columns>& columns, double size_pt, const Stroke& rule)
{
    const auto row = std::make_shared<const Cells>(std::move(cells));
    return {[=](double width) { return row_height(*row, columns->widths(width), size_pt); },
            [=](PagePainter& painter, const QRectF& box) {
                draw_row(*row, columns->widths(box.width()), size_pt, painter, box);
                painter.line(box.bottomLeft(), box.bottomRight(), rule);
            }};
}

PageBlock head_piece(const Table& table, const std::shared_ptr<const Columns>& columns)
{
    Cells cells;
    for (const auto& column : table.columns) {
        cells.push_back({.text = column.head, .align = column.align, .bold = true});
    }
    PageBlock block = row_piece(std::move(cells), columns, table.size_pt - 0.6, kHeadRule);
    block.keeps_next = true;
    return block;
}

} // namespace

PageBlocks table(const Table& table)
{
    const auto columns = std::make_shared<const Columns>(table);
    PageBlocks blocks{head_piece(table, columns)};
    for (const auto& cells : table.rows) {
        blocks.push_back(row_piece(cells, columns, table.size_pt, kRule));
    }
    return blocks;
}

PageBlock whole_table(const Table& content, double gap_before)
{
    const auto blocks = std::make_shared<const PageBlocks>(table(content));
    return {[=](double width) { return height_of(*blocks, width); },
            [=](PagePainter& painter, const QRectF& box) { draw_all(*blocks, painter, box); }, gap_before};
}

} // namespace zeroline::print
