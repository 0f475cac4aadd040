#pragma once

#include "gui/session/run_marks.hpp"
#include "gui/window/plot_frame.hpp"

#include <QWidget>

#include <optional>

class QPainter;

namespace zeroline::window {

/// A plot of pressure over time that is looked at closely: wheel and plus/minus zoom, dragging and the arrow keys move,
/// Home shows all, a double click starts over, and the moment under the pointer is kept.
class ZoomedPlot : public QWidget {
    Q_OBJECT
public:
    explicit ZoomedPlot(QWidget* parent = nullptr);

    void point_at(double time_s); ///< as the pointer does

protected:
    /// `factor` below 1 shows less; `share` of the width stays where it is.
    virtual void zoom(double factor, double share) = 0;
    virtual void pan(double share) = 0; ///< of the width; positive: later
    virtual void show_all() = 0;
    virtual void start_over() { show_all(); }
    /// Where the plus key zooms in on, as a share of the width.
    [[nodiscard]] virtual double looked_at() const { return 0.5; }

    void fill_band(QPainter& painter, const session::PressureBand& band, const QColor& colour, double alpha) const;
    void draw_focus(QPainter& painter) const;
    /// Room for so many lines of writing of the frame's size, and a width to go with them.
    [[nodiscard]] QSize least(int lines) const
    {
        constexpr int frame_px = 40;
        return {frame_px + 20 * fontMetrics().averageCharWidth(), frame_px + lines * fontMetrics().height()};
    }

    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

    PlotFrame frame_;
    std::optional<double> pointer_s_; ///< none: the pointer is elsewhere

private:
    QPointF dragged_from_;
};

} // namespace zeroline::window
