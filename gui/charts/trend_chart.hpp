#pragma once

#include "gui/charts/plot_view.hpp"
#include "gui/charts/trend_picture.hpp"

namespace zeroline::charts {

/// A quantity of a unit over its visits; the visit nearest to the pointer is said in figures.
class TrendChart : public PlotView {
    Q_OBJECT
public:
    explicit TrendChart(QWidget* parent = nullptr);

    void show_trend(session::UnitTrend trend);
    void show_nothing() { show_trend({}); }

protected:
    [[nodiscard]] Reach all() const override { return trend_.all(); }
    [[nodiscard]] Picture picture(const Reach& part, int columns) const override;
    [[nodiscard]] std::optional<Pointed> pointed(double across) const override;

private:
    TrendPicture trend_;
};

} // namespace zeroline::charts
