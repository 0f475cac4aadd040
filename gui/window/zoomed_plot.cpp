#include "gui/window/zoomed_plot.hpp"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

namespace zeroline::window {

namespace {

constexpr double kZoomStep = 1.25;
constexpr double kPanStep = 0.1;
constexpr double kWheelNotch = 120.0;

} // namespace

ZoomedPlot::ZoomedPlot(QWidget* parent) : QWidget(parent)
{
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
}

void ZoomedPlot::point_at(double time_s)
{
    pointer_s_ = time_s;
    update();
}

void ZoomedPlot::fill_band(QPainter& painter, const session::PressureBand& band, const QColor& colour,
                           double alpha) const
{
    auto fill = colour;
    fill.setAlphaF(static_cast<float>(alpha));
    const auto& area = frame_.area();
    const double top = std::clamp(frame_.y(band.high_cmH2O), area.top(), area.bottom());
    const double bottom = std::clamp(frame_.y(band.low_cmH2O), area.top(), area.bottom());
    painter.fillRect(QRectF(area.left(), top, area.width(), bottom - top), fill);
    painter.setPen(QPen(colour, 1.0, Qt::DotLine));
    painter.drawLine(QPointF(area.left(), top), QPointF(area.right(), top));
    painter.drawLine(QPointF(area.left(), bottom), QPointF(area.right(), bottom));
}

void ZoomedPlot::draw_focus(QPainter& painter) const
{
    if (hasFocus()) {
        painter.setPen(QPen(palette().color(QPalette::Highlight), 2.0));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

void ZoomedPlot::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    frame_.lay_out(rect(), font());
}

void ZoomedPlot::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange) {
        frame_.lay_out(rect(), font());
    }
}

void ZoomedPlot::wheelEvent(QWheelEvent* event)
{
    const double notches = event->angleDelta().y() / kWheelNotch;
    zoom(std::pow(kZoomStep, -notches), std::clamp(frame_.share_at(event->position().x()), 0.0, 1.0));
    event->accept();
}

void ZoomedPlot::mousePressEvent(QMouseEvent* event) { dragged_from_ = event->position(); }

void ZoomedPlot::mouseMoveEvent(QMouseEvent* event)
{
    if ((event->buttons() & Qt::LeftButton) != 0) {
        pan((dragged_from_.x() - event->position().x()) / frame_.area().width());
        dragged_from_ = event->position();
    }
    const double share = frame_.share_at(event->position().x());
    pointer_s_ = share >= 0.0 && share <= 1.0 ? std::optional(frame_.time_at(event->position().x())) : std::nullopt;
    update();
}

void ZoomedPlot::mouseDoubleClickEvent(QMouseEvent* /*event*/) { start_over(); }

void ZoomedPlot::leaveEvent(QEvent* /*event*/)
{
    pointer_s_.reset();
    update();
}

void ZoomedPlot::keyPressEvent(QKeyEvent* event)
{
    switch (event->key()) {
    case Qt::Key_Plus:
        return zoom(1.0 / kZoomStep, looked_at());
    case Qt::Key_Minus:
        return zoom(kZoomStep, 0.5);
    case Qt::Key_Left:
        return pan(-kPanStep);
    case Qt::Key_Right:
        return pan(kPanStep);
    case Qt::Key_Home:
        return show_all();
    default:
        QWidget::keyPressEvent(event);
    }
}

} // namespace zeroline::window
