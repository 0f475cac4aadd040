#pragma once

#include <QString>
#include <QStyledItemDelegate>

class QAbstractItemModel;
class QListView;

namespace zeroline::window {

/// Fills a cell with the colour of its tone and writes its words in an ink that stands on it. A tone without a colour
/// gets an outline.
class ToneDelegate : public QStyledItemDelegate {
    Q_OBJECT
public:
    ToneDelegate(int tone_role, QObject* parent);

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;

private:
    int tone_role_;
};

/// Sentences one under the other, wrapped, with the tone of each.
[[nodiscard]] QListView* sentence_list(const char* name, const QString& spoken, QAbstractItemModel* model);

} // namespace zeroline::window
