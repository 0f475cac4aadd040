#pragma once

#include "gui/print/page_block.hpp"

namespace zeroline::print {

/// What a cell says and how it stands there. With a sign it is a mark: the sign on a small coloured ground, the text
/// beside it.
struct Cell {
    QString text;
    Align align = Align::left;
    bool bold = false;
    QString sign = {};
    QColor ground = Qt::white, sign_colour = Qt::black;
};

struct Column {
    QString head;
    double share = 1.0; ///< of the width, against the other columns
    Align align = Align::left;
};

struct Table {
    std::vector<Column> columns;
    std::vector<std::vector<Cell>> rows; ///< as many cells as columns each
    double size_pt = 7.2;
};

/// Head and rows, a block each: a long table goes on over the page. Cells are wrapped.
[[nodiscard]] PageBlocks table(const Table& table);

/// The same as one block that is never cut.
[[nodiscard]] PageBlock whole_table(const Table& table, double gap_before = 0.0);

} // namespace zeroline::print
