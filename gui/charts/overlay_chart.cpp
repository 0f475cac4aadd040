#include "gui/charts/overlay_chart.hpp"

#include "gui/session/shown_number.hpp"

namespace zeroline::charts {

OverlayChart::OverlayChart(QWidget* parent) : PlotView(parent)
{
    setObjectName(QStringLiteral("overlay"));
    setAccessibleName(tr("all cycles and their median"));
    setAccessibleDescription(tr("Plus and minus zoom, arrow keys move, Home shows all."));
}

void OverlayChart::show_cycles(OverlayPicture cycles)
{
    cycles_ = std::move(cycles);
    look_at(all());
}

Reach OverlayChart::all() const { return {cycles_.first_s(), cycles_.last_s()}; }

Picture OverlayChart::picture(const Reach& part, int columns) const
{
    return cycles_.between(part.from, part.to, columns,
                           {tr("seconds from the onset of insufflation"), tr("cmH2O"), tr("each cycle"),
                            tr("not judged"), tr("median"), tr("visit before")});
}

std::optional<PlotView::Pointed> OverlayChart::pointed(double across) const
{
    const auto nearest = cycles_.median().nearest(across);
    if (!nearest) {
        return std::nullopt;
    }
    return Pointed{{nearest->time_s, nearest->pressure_cmH2O},
                   tr("median at %1 s: %2 cmH2O")
                       .arg(session::shown(nearest->time_s, 2), session::shown_signed(nearest->pressure_cmH2O, 1))};
}

} // namespace zeroline::charts
