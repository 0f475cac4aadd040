#include "gui/window/tone_view.hpp"

#include "gui/session/findings_model.hpp"
#include "gui/session/judgement_model.hpp"
#include "gui/window/look.hpp"

#include <QHeaderView>
#include <QListView>
#include <QPainter>
#include <QScrollBar>

#include <algorithm>

namespace zeroline::window {

using session::Tone;

ToneDelegate::ToneDelegate(int tone_role, QObject* parent) : QStyledItemDelegate(parent), tone_role_(tone_role) {}

void ToneDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    const auto tone = static_cast<Tone>(index.data(tone_role_).toInt());
    const auto fill = fill_of(tone);
    if (!fill.isValid()) {
        QStyledItemDelegate::paint(painter, option, index);
        if (tone == Tone::incomplete) {
            painter->setPen(option.palette.color(QPalette::WindowText));
            painter->drawRect(option.rect.adjusted(1, 1, -2, -2));
        }
        return;
    }
    painter->fillRect(option.rect.adjusted(1, 1, -1, -1), fill);
    painter->setPen(ink_on(tone, option.palette));
    painter->setFont(option.font);
    painter->drawText(option.rect.adjusted(6, 2, -4, -2), Qt::AlignVCenter | Qt::AlignLeft | Qt::TextWordWrap,
                      index.data().toString());
    if ((option.state & QStyle::State_HasFocus) != 0) {
        painter->setPen(QPen(option.palette.color(QPalette::Highlight), 2.0));
        painter->drawRect(option.rect.adjusted(1, 1, -1, -1));
    }
}

QSize ToneDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    auto size = QStyledItemDelegate::sizeHint(option, index);
    const auto* view = qobject_cast<const QListView*>(option.widget);
    if (view != nullptr && view->wordWrap()) {
        const int width = view->viewport()->width() - 16;
        const auto text = index.data().toString();
        size = option.fontMetrics.boundingRect(0, 0, width, 10000, Qt::TextWordWrap, text).size();
        size.rwidth() = width;
    }
    return size + QSize(12, 10);
}

namespace {

/// Gives what the numbers leave to their names, which wrap; no less than their longest word needs.
class FittedTable : public QTableView {
public:
    bool fitted = false;

    void share_out()
    {
        auto* header = horizontalHeader();
        if (!fitted || header->count() == 0) {
            return;
        }
        header->setStretchLastSection(false);
        header->setSectionResizeMode(0, QHeaderView::Fixed);
        header->resizeSection(0, std::max(viewport()->width() - numbers_px(), longest_word_px()));
    }

    [[nodiscard]] int wanted_px() const
    {
        return longest_word_px() + numbers_px() + verticalScrollBar()->sizeHint().width() + 2 * frameWidth();
    }

protected:
    void resizeEvent(QResizeEvent* event) override
    {
        QTableView::resizeEvent(event);
        share_out();
    }

private:
    [[nodiscard]] int numbers_px() const
    {
        int sum = 0;
        for (int column = 1; column < horizontalHeader()->count(); ++column) {
            sum += horizontalHeader()->sectionSize(column);
        }
        return sum;
    }

    [[nodiscard]] int longest_word_px() const
    {
        int longest = 0;
        for (int row = 0; row < model()->rowCount(); ++row) {
            for (const auto& word : model()->index(row, 0).data().toString().split(u' ')) {
                longest = std::max(longest, fontMetrics().horizontalAdvance(word));
            }
        }
        constexpr int air_px = 14;
        return longest + air_px;
    }
};

} // namespace

QTableView* numbers_table(const char* name, const QString& spoken, QAbstractItemModel* model)
{
    auto* table = named(static_cast<QTableView*>(new FittedTable), name, spoken);
    table->setModel(model);
    table->setItemDelegate(new ToneDelegate(session::JudgementModel::ToneRole, table));
    table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table->setSelectionMode(QAbstractItemView::NoSelection);
    table->setTabKeyNavigation(false);
    table->setWordWrap(false);
    table->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    table->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    table->verticalHeader()->hide();
    table->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table->horizontalHeader()->setStretchLastSection(true);
    table->horizontalHeader()->setHighlightSections(false);
    return table;
}

void fit_beside_the_trace(QTableView* table)
{
    auto* fitted = static_cast<FittedTable*>(table);
    fitted->fitted = true;
    table->setWordWrap(true);
    const auto share_out = [fitted] { fitted->share_out(); };
    QObject::connect(table->model(), &QAbstractItemModel::modelReset, table, share_out);
    QObject::connect(table->horizontalHeader(), &QHeaderView::sectionResized, table, [share_out](int column) {
        if (column != 0) {
            share_out();
        }
    });
    share_out();
}

int wanted_width(const QTableView* table) { return static_cast<const FittedTable*>(table)->wanted_px(); }

QListView* sentence_list(const char* name, const QString& spoken, QAbstractItemModel* model)
{
    auto* list = named(new QListView, name, spoken);
    list->setModel(model);
    list->setItemDelegate(new ToneDelegate(session::FindingsModel::ToneRole, list));
    list->setWordWrap(true);
    list->setResizeMode(QListView::Adjust);
    list->setSpacing(3);
    list->setEditTriggers(QAbstractItemView::NoEditTriggers);
    list->setSelectionMode(QAbstractItemView::NoSelection);
    list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    return list;
}

} // namespace zeroline::window
