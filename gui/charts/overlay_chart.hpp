#pragma once

#include "gui/charts/overlay_picture.hpp"
#include "gui/charts/plot_view.hpp"

namespace zeroline::charts {

/// All cycles of a preset laid over each other, with their median and the bands they are judged by.
class OverlayChart : public PlotView {
    Q_OBJECT
public:
    explicit OverlayChart(QWidget* parent = nullptr);

    void show_cycles(OverlayPicture cycles);

protected:
    [[nodiscard]] Reach all() const override;
    [[nodiscard]] Picture picture(const Reach& part, int columns) const override;
    [[nodiscard]] std::optional<Pointed> pointed(double across) const override;

private:
    OverlayPicture cycles_;
};

} // namespace zeroline::charts
