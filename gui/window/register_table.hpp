#pragma once

#include <QTableView>

class QLabel;

namespace zeroline::window {

class RegisterRows;

/// A list of the register: rows of one height, one chosen at a time; Ctrl+C copies it. Columns come in the order in
/// which they matter. Nobody scrolls sideways: those at the end that have no room are left out.
[[nodiscard]] QTableView* register_table(const char* name, const QString& spoken, RegisterRows* rows);

/// Stands below such a table and says what it does not show: columns without room, rows further down. Hidden where it
/// shows all.
[[nodiscard]] QLabel* not_shown_of(QTableView* table);

} // namespace zeroline::window
