#pragma once

#include "gui/session/cycle_overlay.hpp"
#include "gui/window/zoomed_plot.hpp"

namespace zeroline::window {

/// All cycles of a preset laid over each other, with their median and the bands they are judged by.
class OverlayChart : public ZoomedPlot {
    Q_OBJECT
public:
    explicit OverlayChart(QWidget* parent = nullptr);

    void show_cycles(session::CycleOverlay overlay, std::vector<session::PressureBand> limits,
                     std::optional<session::PressureBand> zero);
    [[nodiscard]] QString under_pointer() const; ///< empty: the pointer is elsewhere

    [[nodiscard]] QSize sizeHint() const override { return {500, 260}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return least(8); }

protected:
    void zoom(double factor, double share) override;
    void pan(double share) override;
    void show_all() override;
    void paintEvent(QPaintEvent* event) override;

private:
    void draw_bands(QPainter& painter) const;
    void draw_cycles(QPainter& painter) const;
    void draw_pointer(QPainter& painter) const;

    session::CycleOverlay overlay_;
    std::vector<session::PressureBand> limits_;
    std::optional<session::PressureBand> zero_;
    double first_s_ = 0.0, last_s_ = 1.0;
    double from_s_ = 0.0, to_s_ = 1.0;
};

} // namespace zeroline::window
