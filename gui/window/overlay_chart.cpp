#include "gui/window/overlay_chart.hpp"

#include "gui/session/shown_number.hpp"
#include "gui/window/look.hpp"

#include <QPainter>

#include <algorithm>
#include <cmath>

namespace zeroline::window {

namespace {

constexpr double kShortest_s = 0.05;

} // namespace

OverlayChart::OverlayChart(QWidget* parent) : ZoomedPlot(parent)
{
    named(this, "overlay", tr("all cycles and their median"));
    setAccessibleDescription(tr("Plus and minus zoom, arrow keys move, Home shows all."));
}

void OverlayChart::show_cycles(session::CycleOverlay overlay, std::vector<session::PressureBand> limits,
                               std::optional<session::PressureBand> zero)
{
    overlay_ = std::move(overlay);
    limits_ = std::move(limits);
    zero_ = zero;
    frame_.reset_edges();
    first_s_ = 0.0;
    last_s_ = 1.0;
    for (const auto& cycle : overlay_.cycles) {
        if (!cycle.samples.empty()) {
            first_s_ = std::min(first_s_, cycle.samples.front().time_s);
            last_s_ = std::max(last_s_, cycle.samples.back().time_s);
        }
        for (const auto& sample : cycle.samples) {
            frame_.widen_to(sample.pressure_cmH2O);
        }
    }
    show_all();
}

void OverlayChart::show_all()
{
    from_s_ = first_s_;
    to_s_ = last_s_;
    update();
}

void OverlayChart::zoom(double factor, double share)
{
    const double width_s = std::clamp((to_s_ - from_s_) * factor, kShortest_s, last_s_ - first_s_);
    const double fixed_s = from_s_ + share * (to_s_ - from_s_);
    from_s_ = fixed_s - share * width_s;
    to_s_ = from_s_ + width_s;
    pan(0.0);
}

void OverlayChart::pan(double share)
{
    const double width_s = to_s_ - from_s_;
    from_s_ = std::clamp(from_s_ + share * width_s, first_s_, std::max(first_s_, last_s_ - width_s));
    to_s_ = from_s_ + width_s;
    update();
}

void OverlayChart::draw_bands(QPainter& painter) const
{
    if (zero_) {
        fill_band(painter, *zero_, palette().color(QPalette::WindowText), 0.08);
    }
    for (const auto& band : limits_) {
        fill_band(painter, band, fill_of(session::Tone::pass), 0.25);
    }
}

void OverlayChart::draw_cycles(QPainter& painter) const
{
    auto thin = trace_colour(palette());
    thin.setAlphaF(0.45F);
    for (const auto& cycle : overlay_.cycles) {
        // A cycle that is not judged is shown, and seen to be none of the others.
        painter.setPen(QPen(thin, 1.0, cycle.judged ? Qt::SolidLine : Qt::DotLine));
        painter.drawPolyline(frame_.line(cycle.samples));
    }
    painter.setPen(QPen(palette().color(QPalette::WindowText), 2.0));
    painter.drawPolyline(frame_.line(overlay_.median));
}

QString OverlayChart::under_pointer() const
{
    if (!pointer_s_ || overlay_.median.empty()) {
        return {};
    }
    const auto nearest =
        std::min_element(overlay_.median.begin(), overlay_.median.end(), [&](const auto& a, const auto& b) {
            return std::fabs(a.time_s - *pointer_s_) < std::fabs(b.time_s - *pointer_s_);
        });
    return tr("median at %1 s: %2 cmH2O")
        .arg(session::shown(nearest->time_s, 2), session::shown_signed(nearest->pressure_cmH2O, 1));
}

void OverlayChart::draw_pointer(QPainter& painter) const
{
    const auto text = under_pointer();
    if (text.isEmpty()) {
        return;
    }
    const double at = frame_.x(*pointer_s_);
    painter.setPen(QPen(palette().color(QPalette::WindowText), 1.0, Qt::DashLine));
    painter.drawLine(QPointF(at, frame_.area().top()), QPointF(at, frame_.area().bottom()));
    painter.drawText(QRectF(frame_.area().left(), 0.0, frame_.area().width(), fontMetrics().height()), Qt::AlignRight,
                     text);
}

void OverlayChart::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    frame_.set_times(from_s_, to_s_);
    draw_bands(painter);
    frame_.draw(painter, palette(), 0.0, tr("seconds from the onset of insufflation; thick: median"));
    painter.save();
    painter.setClipRect(frame_.area());
    draw_cycles(painter);
    painter.restore();
    draw_pointer(painter);
    draw_focus(painter);
}

} // namespace zeroline::window
