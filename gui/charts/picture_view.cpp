#include "gui/charts/picture_view.hpp"

namespace zeroline::charts {

PictureView::PictureView(const char* name, const QString& spoken, QWidget* parent) : PlotView(parent)
{
    setObjectName(QLatin1String(name));
    setAccessibleName(spoken);
}

void PictureView::show_picture(const Reach& all, Make make)
{
    all_ = all;
    make_ = std::move(make);
    look_at(all_);
}

Picture PictureView::picture(const Reach& part, int columns) const
{
    if (make_) {
        return make_(part, columns);
    }
    Picture nothing;
    nothing.across = {part.from, part.to, {}, false};
    nothing.up.numbers = false;
    return nothing;
}

} // namespace zeroline::charts
