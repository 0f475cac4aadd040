#pragma once

#include "gui/session/trace_viewport.hpp"
#include "gui/window/zoomed_plot.hpp"

class QPushButton;

namespace zeroline::window {

/// The trace of a run: line, tolerance band, zero band, cycle numbers, hatching where nothing came in.
///
/// End goes back to live. What is under the pointer is said in figures. The cost of a frame depends on the width in
/// pixels alone.
class TraceChart : public ZoomedPlot {
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

    [[nodiscard]] QSize sizeHint() const override { return {640, 360}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return least(5); }

protected:
    void zoom(double factor, double share) override;
    void pan(double share) override;
    void show_all() override;
    void start_over() override;
    [[nodiscard]] double looked_at() const override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void set_up_back_to_live();
    void looked_elsewhere();
    void lay_out();
    void draw_bands(QPainter& painter) const;
    void draw_lost(QPainter& painter) const;
    [[nodiscard]] double samples_a_column() const;
    void draw_line(QPainter& painter);
    void draw_cycles(QPainter& painter) const;
    void draw_pointer(QPainter& painter) const;

    const session::TraceHistory* history_ = nullptr;
    session::RunMarks marks_;
    session::TraceViewport viewport_;
    bool live_ = false;
    int points_ = 0;
    QPushButton* back_to_live_;
};

} // namespace zeroline::window
