#include "gui/window/register_table.hpp"

#include "gui/window/page_parts.hpp"
#include "gui/window/register_rows.hpp"
#include "gui/window/tone_delegate.hpp"

#include <QCoreApplication>
#include <QHeaderView>
#include <QLabel>
#include <QScrollBar>

#include <algorithm>

namespace zeroline::window {

namespace {

struct TableText {
    Q_DECLARE_TR_FUNCTIONS(TableText)
};

class RegisterTable : public QTableView {
public:
    /// A column is as wide as its heading and what stands in its first rows; the last one that has room may have its
    /// heading cut.
    void fit()
    {
        left_out_.clear();
        int room_px = viewport()->width();
        for (int column = 0; column < model()->columnCount(); ++column) {
            showColumn(column);
            const int content_px = content_width(column);
            if (column > 0 && (!left_out_.isEmpty() || content_px > room_px)) {
                hideColumn(column);
                left_out_ << model()->headerData(column, Qt::Horizontal).toString();
                continue;
            }
            const int width_px = std::max(content_px, std::min(room_px, horizontalHeader()->sectionSizeHint(column)));
            setColumnWidth(column, width_px);
            room_px -= width_px;
        }
        tell();
    }

    void tell()
    {
        const bool goes_on = verticalScrollBar()->maximum() > 0;
        const auto columns = left_out_.isEmpty()
                                 ? QString()
                                 : TableText::tr("No room for: %1.").arg(left_out_.join(QStringLiteral(", ")));
        not_shown->setText(goes_on ? (columns + u' ' + TableText::tr("The list goes on below.")).trimmed() : columns);
        not_shown->setVisible(!not_shown->text().isEmpty());
    }

    QLabel* const not_shown = text_label("notShown", TableText::tr("what the table does not show"));

private:
    [[nodiscard]] int content_width(int column) const
    {
        constexpr int most_letters = 34, fewest_letters = 6;
        const int letter_px = fontMetrics().averageCharWidth();
        return std::clamp(sizeHintForColumn(column) + 2, fewest_letters * letter_px, most_letters * letter_px);
    }

    QStringList left_out_;

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
    table->not_shown->hide();
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
    table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table->horizontalHeader()->setTextElideMode(Qt::ElideRight);
    table->horizontalHeader()->setStretchLastSection(true);
    table->horizontalHeader()->setResizeContentsPrecision(50);
    QObject::connect(rows, &RegisterRows::fetched, table, [table, rows] {
        if (rows->rowCount() <= RegisterRows::kPage) {
            table->fit();
        }
    });
    QObject::connect(rows, &QAbstractItemModel::modelReset, table, [table] { table->fit(); });
    QObject::connect(table->verticalScrollBar(), &QScrollBar::rangeChanged, table, [table] { table->tell(); });
    return table;
}

QLabel* not_shown_of(QTableView* table) { return static_cast<RegisterTable*>(table)->not_shown; }

} // namespace zeroline::window
