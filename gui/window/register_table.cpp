#include "gui/window/register_table.hpp"

#include "gui/window/page_parts.hpp"
#include "gui/window/register_rows.hpp"
#include "gui/window/tone_delegate.hpp"

#include <QHeaderView>

#include <algorithm>

namespace zeroline::window {

namespace {

/// Columns as wide as what stands in their first rows.
void fit(QTableView* table)
{
    for (int column = 0; column < table->model()->columnCount(); ++column) {
        constexpr int most_letters = 34;
        const int most_px = most_letters * table->fontMetrics().averageCharWidth();
        table->resizeColumnToContents(column);
        table->setColumnWidth(column, std::min(table->columnWidth(column), most_px));
    }
}

} // namespace

QTableView* register_table(const char* name, const QString& spoken, RegisterRows* rows)
{
    auto* table = named(new QTableView, name, spoken);
    table->setModel(rows);
    table->setItemDelegate(new ToneDelegate(RegisterRows::ToneRole, table));
    table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table->setSelectionBehavior(QAbstractItemView::SelectRows);
    table->setSelectionMode(QAbstractItemView::SingleSelection);
    table->setTabKeyNavigation(false);
    table->setWordWrap(false);
    table->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    table->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    table->verticalHeader()->hide();
    // Of one height: nothing is measured row by row, however many there are.
    table->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    table->verticalHeader()->setDefaultSectionSize(std::max(kTarget_px, table->fontMetrics().height() + 2 * kGap_px));
    table->horizontalHeader()->setHighlightSections(false);
    table->horizontalHeader()->setStretchLastSection(true);
    table->horizontalHeader()->setResizeContentsPrecision(50);
    QObject::connect(rows, &RegisterRows::fetched, table, [table, rows] {
        if (rows->rowCount() <= RegisterRows::kPage) {
            fit(table);
        }
    });
    QObject::connect(rows, &QAbstractItemModel::modelReset, table, [table] { fit(table); });
    return table;
}

} // namespace zeroline::window
