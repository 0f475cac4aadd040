#include "gui/window/tone_delegate.hpp"

#include "gui/session/findings_model.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/tone_colours.hpp"

#include <QListView>
#include <QPainter>

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
    constexpr double corner = 4.0;
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(Qt::NoPen);
    painter->setBrush(fill);
    auto box = option.rect.adjusted(1, 1, -1, -1);
    if (qobject_cast<const QListView*>(option.widget) == nullptr) { // a cell no wider than its words
        constexpr int air = 12;
        box.setWidth(std::min(box.width(), option.fontMetrics.horizontalAdvance(index.data().toString()) + air));
    }
    painter->drawRoundedRect(box, corner, corner);
    painter->restore();
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

/// As high as all that it says.
class WholeList : public QListView {
public:
    void doItemsLayout() override
    {
        QListView::doItemsLayout();
        if (const int wanted = contentsSize().height() + 2 * frameWidth() + 2; wanted != height()) {
            setFixedHeight(wanted);
        }
    }
};

} // namespace

QListView* sentence_list(const char* name, const QString& spoken, QAbstractItemModel* model)
{
    auto* list = named(static_cast<QListView*>(new WholeList), name, spoken);
    list->setModel(model);
    list->setItemDelegate(new ToneDelegate(session::FindingsModel::ToneRole, list));
    list->setWordWrap(true);
    list->setResizeMode(QListView::Adjust);
    list->setSpacing(3);
    list->setEditTriggers(QAbstractItemView::NoEditTriggers);
    list->setSelectionMode(QAbstractItemView::NoSelection);
    list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    return list;
}

} // namespace zeroline::window
