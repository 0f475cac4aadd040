#pragma once

#include "gui/charts/plot_view.hpp"

#include <functional>

namespace zeroline::charts {

/// A chart of whatever is handed in: made anew for each part that is looked at.
class PictureView : public PlotView {
    Q_OBJECT
public:
    using Make = std::function<Picture(const Reach& part, int columns)>;

    PictureView(const char* name, const QString& spoken, QWidget* parent = nullptr);

    void show_picture(const Reach& all, Make make);
    void show_nothing() { show_picture({}, {}); }

protected:
    [[nodiscard]] Reach all() const override { return all_; }
    [[nodiscard]] Picture picture(const Reach& part, int columns) const override;

private:
    Reach all_;
    Make make_;
};

} // namespace zeroline::charts
