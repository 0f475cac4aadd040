#include "gui/session/table_text.hpp"

#include "gui/session/csv_cell.hpp"

#include <QAbstractItemModel>
#include <QStringList>

namespace zeroline::session {

namespace {

/// Heads and rows, each cell as `cell` writes it.
template <typename Cell> QList<QStringList> lines_of(const QAbstractItemModel& table, Cell cell)
{
    QList<QStringList> lines(1);
    for (int column = 0; column < table.columnCount(); ++column) {
        lines[0] << cell(table.headerData(column, Qt::Horizontal, Qt::DisplayRole).toString());
    }
    for (int row = 0; row < table.rowCount(); ++row) {
        lines << QStringList();
        for (int column = 0; column < table.columnCount(); ++column) {
            lines.back() << cell(table.index(row, column).data().toString());
        }
    }
    return lines;
}

QString joined(const QList<QStringList>& lines, QChar between, const QString& end)
{
    QString text;
    for (const auto& line : lines) {
        text += line.join(between) + end;
    }
    return text;
}

QString cell_of(const QString& text) { return QString::fromStdString(csv_cell(text.toStdString())); }

} // namespace

QString as_text(const QAbstractItemModel& table)
{
    return joined(lines_of(table, [](const QString& cell) { return cell.simplified(); }), u'\t', QStringLiteral("\n"));
}

QString as_csv(const QAbstractItemModel& table)
{
    return joined(lines_of(table, cell_of), u',', QStringLiteral("\r\n"));
}

} // namespace zeroline::session
