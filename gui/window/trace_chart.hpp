#pragma once

#include "gui/session/run_marks.hpp"
#include "gui/session/trace_viewport.hpp"
#include "gui/window/plot_frame.hpp"

#include <QWidget>

#include <optional>

class QPushButton;

namespace zeroline::window {

/// The trace of a run: line, tolerance band, zero band, cycle numbers, hatching where nothing came in.
///
/// Wheel and plus/minus zoom, dragging and the arrow keys move, Home shows everything, End goes back to live. What is
/// under the pointer is said in figures. The cost of a frame depends on the width in pixels alone.
class TraceChart : public QWidget {
    Q_OBJECT
public:
    explicit TraceChart(QWidget* parent = nullptr);

    /// Shows that trace from now on; it must outlive the chart or the next call. Null: nothing.
    void show_trace(const session::TraceHistory* history, bool live);
    void show_marks(session::RunMarks marks);
    /// The trace has grown: at most one repaint follows.
    void refresh();

    [[nodiscard]] const session::TraceViewport& viewport() const noexcept { return viewport_; }
    [[nodiscard]] int points() const noexcept { return points_; } ///< of the line as it was drawn last
    [[nodiscard]] QString under_pointer() const;                  ///< empty: the pointer is elsewhere
    void point_at(double time_s);                                 ///< as the pointer does

    [[nodiscard]] QSize sizeHint() const override { return {640, 360}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {280, 130}; }

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void set_up_back_to_live();
    void zoom(double factor, double share);
    void pan(double share);
    void looked_elsewhere();
    void lay_out();
    void draw_bands(QPainter& painter) const;
    void draw_lost(QPainter& painter) const;
    [[nodiscard]] double samples_a_column() const;
    void draw_line(QPainter& painter);
    void draw_cycles(QPainter& painter) const;
    void draw_pointer(QPainter& painter) const;
    void fill_band(QPainter& painter, const session::PressureBand& band, const QColor& colour, double alpha) const;

    const session::TraceHistory* history_ = nullptr;
    session::RunMarks marks_;
    session::TraceViewport viewport_;
    PlotFrame frame_;
    bool live_ = false;
    int points_ = 0;
    std::optional<double> pointer_s_;
    QPointF dragged_from_;
    QPushButton* back_to_live_;
};

} // namespace zeroline::window
