#pragma once

#include <QStyledItemDelegate>
#include <QTableView>

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

/// A table of numbers to be read, not edited: rows fit for reading at arm's length, one tab stop.
[[nodiscard]] QTableView* numbers_table(const char* name, const QString& spoken, QAbstractItemModel* model);
/// Lets the names of a numbers_table() wrap so that its numbers and verdicts need no scrolling.
void fit_beside_the_trace(QTableView* table);
/// The width in which such a table shows its numbers without scrolling.
[[nodiscard]] int wanted_width(const QTableView* table);
/// Sentences one under the other, wrapped, with the tone of each.
[[nodiscard]] QListView* sentence_list(const char* name, const QString& spoken, QAbstractItemModel* model);

} // namespace zeroline::window
