#include "gui/print/table.hpp"

#include <algorithm>
#include <memory>

namespace zeroline::print {

namespace {

constexpr double kPadding = 0.5;
constexpr double kGutter = 1.6;
const Stroke kRule{0.08, QColor(0xb0, 0xb0, 0xb0)};
const Stroke kHeadRule{0.2, Qt::black};

using Cells = std::vector<Cell>;

/// The widths that the columns share, as fractions of the whole.
std::vector<double> shares_of(const Table& table)
{
    double sum = 0.0;
    for (const auto& column : table.columns) {
        sum += column.share;
    }
    std::vector<double> shares;
    for (const auto& column : table.columns) {
        shares.push_back(column.share / sum);
    }
    return shares;
}

constexpr double kChip = 4.6;

Style style_of(const Cell& cell, double size_pt) { return {size_pt, cell.bold}; }

double room_for_sign(const Cell& cell) { return cell.sign.isEmpty() ? 0.0 : kChip + 1.0; }

double row_height(const Cells& cells, const std::vector<double>& shares, double size_pt, double width)
{
    double tallest = line_height_mm({.size_pt = size_pt});
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const double room = shares[i] * width - kGutter - room_for_sign(cells[i]);
        tallest = std::max(tallest, text_height_mm(cells[i].text, room, style_of(cells[i], size_pt)));
    }
    return tallest + 2 * kPadding;
}

void draw_sign(const Cell& cell, double size_pt, Ink& ink, QPointF at)
{
    const QRectF chip(at, QSizeF(kChip, line_height_mm({.size_pt = size_pt}) + 0.2));
    ink.fill(chip, cell.ground);
    ink.frame(chip, {0.08, QColor(0x60, 0x60, 0x60)});
    ink.text_at(chip.center(), cell.sign, {size_pt, true, cell.sign_colour}, Align::centre);
}

void draw_row(const Cells& cells, const std::vector<double>& shares, double size_pt, Ink& ink, const QRectF& box)
{
    double x = box.left();
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const double width = shares[i] * box.width();
        const double left = x + kGutter / 2;
        const double room = room_for_sign(cells[i]);
        if (!cells[i].sign.isEmpty()) {
            draw_sign(cells[i], size_pt, ink, {left, box.top() + kPadding - 0.1});
        }
        const QRectF place(left + room, box.top() + kPadding, width - kGutter - room, box.height());
        ink.text(place, cells[i].text, style_of(cells[i], size_pt), cells[i].align);
        x += width;
    }
}

Piece row_piece(Cells cells, std::vector<double> shares, double size_pt, const Stroke& rule)
{
    const auto row = std::make_shared<const Cells>(std::move(cells));
    const auto parts = std::make_shared<const std::vector<double>>(std::move(shares));
    return {[=](double width) { return row_height(*row, *parts, size_pt, width); },
            [=](Ink& ink, const QRectF& box) {
                draw_row(*row, *parts, size_pt, ink, box);
                ink.line(box.bottomLeft(), box.bottomRight(), rule);
            }};
}

Piece head_piece(const Table& table, const std::vector<double>& shares)
{
    Cells cells;
    for (const auto& column : table.columns) {
        cells.push_back({.text = column.head, .align = column.align, .bold = true});
    }
    Piece piece = row_piece(std::move(cells), shares, table.size_pt - 0.6, kHeadRule);
    piece.keeps_next = true;
    return piece;
}

} // namespace

Pieces table(const Table& table)
{
    const auto shares = shares_of(table);
    Pieces pieces{head_piece(table, shares)};
    for (const auto& cells : table.rows) {
        pieces.push_back(row_piece(cells, shares, table.size_pt, kRule));
    }
    return pieces;
}

Piece whole_table(const Table& content, double gap_before)
{
    const auto pieces = std::make_shared<const Pieces>(table(content));
    return {[=](double width) { return height_of(*pieces, width); },
            [=](Ink& ink, const QRectF& box) { draw_all(*pieces, ink, box); }, gap_before};
}

} // namespace zeroline::print
