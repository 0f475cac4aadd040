#pragma once

#include "gui/session/cycle_overlay.hpp"
#include "gui/session/run_marks.hpp"
#include "gui/window/plot_frame.hpp"

#include <QWidget>

namespace zeroline::window {

/// All cycles of a preset laid over each other, with their median and the bands they are judged by. Wheel and
/// plus/minus zoom, dragging and the arrow keys move, Home shows all.
class OverlayChart : public QWidget {
    Q_OBJECT
public:
    explicit OverlayChart(QWidget* parent = nullptr);

    void show_cycles(session::CycleOverlay overlay, std::vector<session::PressureBand> limits,
                     std::optional<session::PressureBand> zero);
    [[nodiscard]] QString under_pointer() const; ///< empty: the pointer is elsewhere

    [[nodiscard]] QSize sizeHint() const override { return {500, 260}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, 110}; }

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void show_all();
    void zoom(double factor, double share);
    void pan(double share);
    void draw_bands(QPainter& painter) const;
    void draw_cycles(QPainter& painter) const;
    void draw_pointer(QPainter& painter) const;

    session::CycleOverlay overlay_;
    std::vector<session::PressureBand> limits_;
    std::optional<session::PressureBand> zero_;
    PlotFrame frame_;
    double first_s_ = 0.0, last_s_ = 1.0;
    double from_s_ = 0.0, to_s_ = 1.0;
    std::optional<double> pointer_s_;
    QPointF dragged_from_;
};

} // namespace zeroline::window
