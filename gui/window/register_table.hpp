#pragma once

#include <QTableView>

namespace zeroline::window {

class RegisterRows;

/// A list of the register: rows of one height, one chosen at a time; Ctrl+C copies it. The first column has what room
/// is left.
[[nodiscard]] QTableView* register_table(const char* name, const QString& spoken, RegisterRows* rows);

} // namespace zeroline::window
