#include "gui/window/register_table.hpp"

#include "gui/window/page_parts.hpp"
#include "gui/window/register_rows.hpp"
#include "gui/window/tone_delegate.hpp"

#include <QHeaderView>

#include <algorithm>

namespace zeroline::window {

namespace {

/// Columns as wide as what stands in their first rows. Nobody scrolls sideways: the last ones are left out where they
/// have no room, and what is chosen shows them.
class RegisterTable : public QTableView {
public:
    void fit()
    {
        int all_px = 0;
        QStringList left_out;
        for (int column = 0; column < model()->columnCount(); ++column) {
            showColumn(column);
            const int wanted_px = wanted(column);
            setColumnWidth(column, wanted_px);
            all_px += wanted_px;
            if (column > 0 && all_px > viewport()->width()) {
                hideColumn(column);
                left_out << model()->headerData(column, Qt::Horizontal).toString();
            }
        }
        horizontalHeader()->setToolTip(left_out.join(QStringLiteral(", ")));
    }

private:
    [[nodiscard]] int wanted(int column) const
    {
        constexpr int most_letters = 34;
        const int whole = std::max(sizeHintForColumn(column), horizontalHeader()->sectionSizeHint(column));
        return std::min(whole, most_letters * fontMetrics().averageCharWidth());
    }

protected:
    void resizeEvent(QResizeEvent* event) override
    {
        QTableView::resizeEvent(event);
        fit();
    }
};

} // namespace

QTableView* register_table(const char* name, const QString& spoken, RegisterRows* rows)
{
    auto* table = named(new RegisterTable, name, spoken);
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
            table->fit();
        }
    });
    QObject::connect(rows, &QAbstractItemModel::modelReset, table, [table] { table->fit(); });
    return table;
}

} // namespace zeroline::window
