#pragma once

#include "gui/print/piece.hpp"

#include <optional>

namespace zeroline::print {

/// What a cell says and how it stands there. A ground makes it a mark: a filled box with a word in it.
struct Cell {
    QString text;
    Align align = Align::left;
    bool bold = false;
    std::optional<QColor> ground = {};
    QColor colour = Qt::black;
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

/// Head and rows, a piece each: a long table goes on over the page. Cells are wrapped.
[[nodiscard]] Pieces table(const Table& table);

/// The same as one piece that is never cut.
[[nodiscard]] Piece whole_table(const Table& table, double gap_before = 0.0);

} // namespace zeroline::print
