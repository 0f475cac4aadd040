#include "gui/window/trace_chart.hpp"

#include "gui/session/shown_number.hpp"
#include "gui/window/look.hpp"

#include <QKeyEvent>
#include <QPainter>
#include <QPushButton>

#include <algorithm>

namespace zeroline::window {

namespace {

constexpr double kTraceWidth_px = 1.5;
constexpr double kDense = 6.0; ///< samples a column

} // namespace

TraceChart::TraceChart(QWidget* parent) : ZoomedPlot(parent)
{
    named(this, "trace", tr("trace of the pressure"));
    setAccessibleDescription(tr("Plus and minus zoom, arrow keys move, Home shows all, End goes back to live."));
    set_up_back_to_live();
}

void TraceChart::set_up_back_to_live()
{
    back_to_live_ = button("backToLive", tr("Back to live"));
    back_to_live_->setParent(this);
    back_to_live_->hide();
    connect(back_to_live_, &QPushButton::clicked, this, &TraceChart::start_over);
}

void TraceChart::show_trace(const session::TraceHistory* history, bool live)
{
    history_ = history;
    live_ = live;
    marks_ = {};
    pointer_s_.reset();
    viewport_ = session::TraceViewport();
    frame_.reset_edges();
    refresh();
    if (!live) {
        viewport_.show_all();
    }
    looked_elsewhere();
}

void TraceChart::show_marks(session::RunMarks marks) { marks_ = std::move(marks); }

void TraceChart::refresh()
{
    if (history_ != nullptr) {
        viewport_.set_extent(history_->first_s(), history_->last_s());
    }
    update();
}

void TraceChart::looked_elsewhere()
{
    back_to_live_->setVisible(live_ && !viewport_.live());
    update();
}

void TraceChart::lay_out()
{
    const auto hint = back_to_live_->sizeHint();
    back_to_live_->setGeometry(width() - hint.width() - 16, 4, hint.width(), std::max(kTarget_px, hint.height()));
}

void TraceChart::resizeEvent(QResizeEvent* event)
{
    ZoomedPlot::resizeEvent(event);
    lay_out();
}

void TraceChart::changeEvent(QEvent* event)
{
    ZoomedPlot::changeEvent(event);
    if (event->type() == QEvent::FontChange) {
        lay_out();
    }
}

void TraceChart::draw_bands(QPainter& painter) const
{
    if (marks_.zero) {
        fill_band(painter, *marks_.zero, palette().color(QPalette::WindowText), 0.08);
    }
    for (const auto& band : marks_.limits) {
        fill_band(painter, band, fill_of(session::Tone::pass), 0.15);
    }
    if (marks_.tolerance) {
        fill_band(painter, *marks_.tolerance, fill_of(session::Tone::pass), 0.25);
    }
}

void TraceChart::draw_lost(QPainter& painter) const
{
    auto ink = palette().color(QPalette::WindowText);
    ink.setAlphaF(0.45F);
    const auto& area = frame_.area();
    for (const auto& stretch : marks_.lost) {
        const double left = std::max(area.left(), frame_.x(stretch.from_s));
        const double right = std::min(area.right(), frame_.x(stretch.to_s));
        if (right > left) {
            painter.fillRect(QRectF(left, area.top(), std::max(2.0, right - left), area.height()),
                             QBrush(ink, Qt::BDiagPattern));
        }
    }
}

double TraceChart::samples_a_column() const
{
    const double whole_s = history_->last_s() - history_->first_s();
    const double share = whole_s > 0.0 ? (frame_.to_s() - frame_.from_s()) / whole_s : 0.0;
    return share * static_cast<double>(history_->size()) / frame_.area().width();
}

void TraceChart::draw_line(QPainter& painter)
{
    const auto kept =
        history_->thinned(frame_.from_s(), frame_.to_s(), std::max(1, static_cast<int>(frame_.area().width())));
    points_ = static_cast<int>(kept.size());
    // Where many samples fall into a column the line is a dense zigzag: stroking it softly would take seconds, and a
    // plain hairline fills the same columns.
    const bool dense = samples_a_column() > kDense;
    painter.setRenderHint(QPainter::Antialiasing, !dense);
    painter.setPen(QPen(trace_colour(palette()), dense ? 0.0 : kTraceWidth_px));
    // A line across missing time would claim what nobody saw.
    std::size_t begin = 0;
    const auto& gaps = history_->gaps();
    const double same_s = history_->tick_s();
    auto gap = std::lower_bound(gaps.begin(), gaps.end(), frame_.from_s(),
                                [](const session::Stretch& one, double time_s) { return one.to_s < time_s; });
    for (std::size_t i = 1; i <= kept.size(); ++i) {
        while (gap != gaps.end() && i < kept.size() && gap->to_s <= kept[i - 1].time_s) {
            ++gap;
        }
        const bool parted = i < kept.size() && gap != gaps.end() && gap->from_s >= kept[i - 1].time_s - same_s &&
                            gap->to_s <= kept[i].time_s + same_s;
        if (parted || i == kept.size()) {
            painter.drawPolyline(frame_.line(std::span(kept).subspan(begin, i - begin)));
            begin = i;
        }
    }
}

void TraceChart::draw_cycles(QPainter& painter) const
{
    const auto metrics = fontMetrics();
    const auto& area = frame_.area();
    double free_from = std::max(area.left(), frame_.unit_right(metrics));
    for (const auto& cycle : marks_.cycles) {
        const double left = frame_.x(cycle.from_s);
        const double middle = 0.5 * (left + frame_.x(cycle.to_s));
        const auto text = cycle.judged ? QString::number(cycle.index) : QStringLiteral("(%1)").arg(cycle.index);
        const double width = metrics.horizontalAdvance(text) + 8.0;
        if (middle - width / 2.0 < free_from || middle + width / 2.0 > area.right()) {
            continue;
        }
        free_from = middle + width / 2.0;
        painter.setPen(palette().color(QPalette::WindowText));
        painter.drawText(QRectF(middle - width / 2.0, area.top() - metrics.height() - 2.0, width, metrics.height()),
                         Qt::AlignCenter, text);
        if (left > area.left()) {
            painter.drawLine(QPointF(left, area.top() - 5.0), QPointF(left, area.top()));
        }
    }
}

QString TraceChart::under_pointer() const
{
    if (!pointer_s_ || history_ == nullptr) {
        return {};
    }
    const auto sample = history_->nearest(*pointer_s_);
    if (!sample) {
        return {};
    }
    return tr("%1 s: %2 cmH2O")
        .arg(session::shown(sample->time_s, 2), session::shown_signed(sample->pressure_cmH2O, 1));
}

void TraceChart::draw_pointer(QPainter& painter) const
{
    const auto text = under_pointer();
    if (text.isEmpty()) {
        return;
    }
    const auto sample = history_->nearest(*pointer_s_);
    const QPointF at(frame_.x(sample->time_s), frame_.y(sample->pressure_cmH2O));
    const auto& area = frame_.area();
    if (at.x() < area.left() || at.x() > area.right()) {
        return;
    }
    painter.setPen(QPen(palette().color(QPalette::WindowText), 1.0, Qt::DashLine));
    painter.drawLine(QPointF(at.x(), area.top()), QPointF(at.x(), area.bottom()));
    painter.drawEllipse(at, 4.0, 4.0);
    const double width = fontMetrics().horizontalAdvance(text) + 12.0;
    const double left = std::clamp(at.x() + 8.0, area.left(), area.right() - width);
    const QRectF box(left, area.bottom() - fontMetrics().height() - 10.0, width, fontMetrics().height() + 6.0);
    painter.fillRect(box, palette().brush(QPalette::ToolTipBase));
    painter.setPen(palette().color(QPalette::ToolTipText));
    painter.drawText(box, Qt::AlignCenter, text);
}

void TraceChart::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    frame_.set_times(viewport_.from_s(), viewport_.to_s());
    if (history_ != nullptr) {
        for (const auto& sample : history_->thinned(viewport_.from_s(), viewport_.to_s(), 64)) {
            frame_.widen_to(sample.pressure_cmH2O);
        }
    }
    draw_bands(painter);
    const bool moving = live_ && viewport_.live() && history_ != nullptr;
    frame_.draw(painter, palette(), moving ? viewport_.to_s() : 0.0,
                moving ? tr("seconds before now") : tr("seconds from the beginning"));
    if (history_ == nullptr) {
        return;
    }
    painter.save();
    painter.setClipRect(frame_.area());
    draw_lost(painter);
    draw_line(painter);
    painter.restore();
    draw_cycles(painter);
    draw_pointer(painter);
    draw_focus(painter);
}

void TraceChart::zoom(double factor, double share)
{
    viewport_.zoom(factor, share);
    looked_elsewhere();
}

void TraceChart::pan(double share)
{
    viewport_.pan(share);
    looked_elsewhere();
}

void TraceChart::show_all()
{
    viewport_.show_all();
    looked_elsewhere();
}

void TraceChart::start_over()
{
    if (!live_) {
        return show_all();
    }
    viewport_.back_to_live();
    looked_elsewhere();
}

double TraceChart::looked_at() const { return live_ && viewport_.live() ? 1.0 : 0.5; }

void TraceChart::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_End && live_) {
        start_over();
    } else {
        ZoomedPlot::keyPressEvent(event);
    }
}

} // namespace zeroline::window
