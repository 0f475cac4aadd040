#pragma once

#include "gui/charts/picture.hpp"

#include <QWidget>

#include <memory>
#include <optional>

namespace zeroline::charts {

/// A stretch of the axis across, in its own unit.
struct Reach {
    double from = 0.0, to = 1.0;
};

/// A chart that is looked at closely. Dragging a box and the keys plus and minus zoom, the arrow keys move, Home shows
/// all, a double click starts over; the wheel zooms a chart that has the focus. What is under the pointer is said in
/// figures. The menu of the right button saves the picture.
///
/// Whoever derives from it says what is there to be seen, and draws a Picture of the part that is looked at.
class PlotView : public QWidget {
    Q_OBJECT
public:
    explicit PlotView(QWidget* parent = nullptr);
    ~PlotView() override;

    void point_at(double across); ///< as the pointer does
    /// What is under the pointer; empty: it is elsewhere.
    [[nodiscard]] QString under_pointer() const;
    [[nodiscard]] Reach looked_at() const;
    /// As it is shown. False where the file could not be written.
    bool save_png(const QString& file) const;
    /// Draws what is there now, at once.
    void redraw();
    /// What is shown, for tests and for copies.
    [[nodiscard]] const Picture& shown() const;

    [[nodiscard]] QSize sizeHint() const override { return {500, 260}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return least(8); }

protected:
    /// All there is to be seen.
    [[nodiscard]] virtual Reach all() const = 0;
    /// The part of it, in so many columns of pixels.
    [[nodiscard]] virtual Picture picture(const Reach& part, int columns) const = 0;
    /// The nearest point to the pointer with its words; none: nothing is there.
    struct Pointed {
        QPointF point;
        QString words;
    };
    [[nodiscard]] virtual std::optional<Pointed> pointed(double across) const;
    virtual void looked_elsewhere() {} ///< a person has zoomed or moved to another part
    virtual void start_over();
    [[nodiscard]] virtual double fixed_share() const { return 0.5; } ///< what the plus key zooms in on
    /// What the axis calls 0.
    [[nodiscard]] virtual double origin() const { return 0.0; }

    void look_at(const Reach& part);
    [[nodiscard]] QSize least(int lines) const;

    void keyPressEvent(QKeyEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void zoom(double factor, double share);
    void move(double share);
    void axis_changed(double low, double high);
    void take_pointer(const QPointF& at);
    void ask_for_file();

    struct Parts;
    std::unique_ptr<Parts> parts_;
};

} // namespace zeroline::charts
