#pragma once

#include <QLayout>

#include <memory>
#include <vector>

namespace zeroline::window {

/// A row that goes on below where it is too wide: large fonts and long languages then cost height, not the right edge.
///
/// Every line is as high as its highest part. Room that is left in a line goes to the parts that were told to grow,
/// else to those that always want more (line edits), else equally to all that can take it; in a row with a gap, lines
/// without the gap stay as they are.
class FlowLayout : public QLayout {
    Q_OBJECT
public:
    explicit FlowLayout(QWidget* parent = nullptr);
    ~FlowLayout() override;

    /// The part at `index` takes `share` of the room that is left in its line.
    void let_grow(int index, int share = 1);
    /// Room that is left goes in between, in front of the part at `index`; behind all where there is none.
    void put_gap(int index);

    void addItem(QLayoutItem* item) override;
    [[nodiscard]] int count() const override;
    [[nodiscard]] QLayoutItem* itemAt(int index) const override;
    [[nodiscard]] QLayoutItem* takeAt(int index) override;
    [[nodiscard]] Qt::Orientations expandingDirections() const override;
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize minimumSize() const override; ///< of the widest part alone in a line
    [[nodiscard]] QSize sizeHint() const override;    ///< of all in one line
    void setGeometry(const QRect& rect) override;

private:
    struct Part {
        std::unique_ptr<QLayoutItem> item;
        int share = 0;
        bool gap = false;

        [[nodiscard]] bool seen() const { return gap || !item->isEmpty(); }
        [[nodiscard]] int width() const { return gap ? 0 : item->sizeHint().width(); }
    };
    struct Line {
        std::vector<const Part*> parts;
        std::vector<int> widths;
        int height = 0;
    };

    [[nodiscard]] std::vector<Line> lines(int width) const;
    void share_out(Line& line, int width) const;
    [[nodiscard]] int spaces_in(const Line& line) const;

    std::vector<Part> parts_;
};

} // namespace zeroline::window
