#pragma once

#include <QString>

class QAbstractItemModel;

namespace zeroline::session {

/// A table as text to be pasted: heads first, cells parted by tabs, a line a row.
[[nodiscard]] QString as_text(const QAbstractItemModel& table);
/// The same as comma-separated values with CRLF, each cell as csv_cell() writes it.
[[nodiscard]] QString as_csv(const QAbstractItemModel& table);

} // namespace zeroline::session
