#include "gui/charts/trace_chart.hpp"

#include "gui/charts/trace_picture.hpp"
#include "gui/session/shown_number.hpp"

#include <QKeyEvent>
#include <QPushButton>

#include <algorithm>

namespace zeroline::charts {

namespace {

constexpr double kBehind_s = 17.0; ///< of a live trace
constexpr double kUsualEdge_cmH2O = 50.0;
constexpr double kCloseEdge_cmH2O = 1.0;
constexpr int kLeastButton_px = 40;

} // namespace

TraceChart::TraceChart(QWidget* parent) : PlotView(parent), edge_cmH2O_(kUsualEdge_cmH2O)
{
    setObjectName(QStringLiteral("trace"));
    setAccessibleName(tr("trace of the pressure"));
    setAccessibleDescription(tr("Plus and minus zoom, arrow keys move, Home shows all, End goes back to live."));
    set_up_back_to_live();
}

void TraceChart::set_up_back_to_live()
{
    back_to_live_ = new QPushButton(tr("Back to live"), this);
    back_to_live_->setObjectName(QStringLiteral("backToLive"));
    back_to_live_->setAccessibleName(tr("Back to live"));
    back_to_live_->setAutoDefault(false);
    back_to_live_->hide();
    connect(back_to_live_, &QPushButton::clicked, this, &TraceChart::start_over);
}

void TraceChart::show_trace(const session::TraceHistory* history, bool live)
{
    history_ = history;
    live_ = following_ = live;
    marks_ = {};
    edge_cmH2O_ = close_ ? kCloseEdge_cmH2O : kUsualEdge_cmH2O;
    back_to_live_->hide();
    if (live) {
        return follow();
    }
    widen(all());
    look_at(all());
}

void TraceChart::show_marks(session::RunMarks marks)
{
    marks_ = std::move(marks);
    if (!live_) {
        redraw();
    }
}

void TraceChart::show_close_to_zero(bool close)
{
    if (std::exchange(close_, close) != close) {
        edge_cmH2O_ = close ? kCloseEdge_cmH2O : kUsualEdge_cmH2O;
        widen(looked_at());
    }
}

void TraceChart::refresh()
{
    if (following_) {
        follow();
    } else {
        redraw();
    }
}

void TraceChart::follow()
{
    const double now_s = history_ != nullptr ? history_->last_s() : 0.0;
    const Reach part{now_s - kBehind_s, now_s + kAhead_s};
    widen(part);
    look_at(part);
}

/// The axis of pressures grows with what is seen; it never shrinks by itself, except close to zero.
void TraceChart::widen(const Reach& part)
{
    if (history_ == nullptr) {
        return;
    }
    double edge = close_ ? kCloseEdge_cmH2O : edge_cmH2O_;
    for (const auto& sample : history_->thinned(part.from, part.to, 64)) {
        edge = edge_for(sample.pressure_cmH2O, edge);
    }
    edge_cmH2O_ = edge;
}

int TraceChart::points() const
{
    int count = 0;
    for (const auto& curve : shown().curves) {
        count += curve.pen == Pen::trace || curve.pen == Pen::dense ? static_cast<int>(curve.points.size()) : 0;
    }
    return count;
}

Reach TraceChart::all() const
{
    const bool nothing = history_ == nullptr || history_->empty();
    return nothing ? Reach{} : Reach{history_->first_s(), std::max(history_->last_s(), history_->first_s() + 1e-3)};
}

double TraceChart::origin() const { return following_ && history_ != nullptr ? history_->last_s() : 0.0; }

Picture TraceChart::picture(const Reach& part, int columns) const
{
    static const session::TraceHistory nothing;
    const auto& history = history_ != nullptr ? *history_ : nothing;
    const auto title = following_ ? tr("seconds from now") : tr("seconds from the beginning");
    auto made =
        TracePicture{history, marks_, origin(), title, tr("cmH2O"), edge_cmH2O_, columns}.between(part.from, part.to);
    const auto aside = std::find_if(made.marks.begin(), made.marks.end(), [](const Mark& mark) { return mark.faint; });
    if (aside != made.marks.end()) {
        made.across.title = tr("%1; in brackets: not judged").arg(made.across.title);
    }
    return made;
}

std::optional<PlotView::Pointed> TraceChart::pointed(double across) const
{
    const auto sample = history_ != nullptr ? history_->nearest(across) : std::nullopt;
    if (!sample) {
        return std::nullopt;
    }
    return Pointed{
        {sample->time_s, sample->pressure_cmH2O},
        tr("%1 s: %2 cmH2O").arg(session::shown(sample->time_s, 2), session::shown_signed(sample->pressure_cmH2O, 1))};
}

void TraceChart::looked_elsewhere()
{
    following_ = false;
    back_to_live_->setVisible(live_);
    widen(looked_at());
}

void TraceChart::start_over()
{
    if (!live_) {
        return PlotView::start_over();
    }
    following_ = true;
    back_to_live_->hide();
    follow();
}

double TraceChart::fixed_share() const { return following_ ? kBehind_s / (kBehind_s + kAhead_s) : 0.5; }

void TraceChart::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_End && live_) {
        start_over();
    } else {
        PlotView::keyPressEvent(event);
    }
}

void TraceChart::lay_out()
{
    const auto hint = back_to_live_->sizeHint();
    back_to_live_->setGeometry(width() - hint.width() - 16, 4, hint.width(), std::max(kLeastButton_px, hint.height()));
    back_to_live_->raise();
}

void TraceChart::resizeEvent(QResizeEvent* event)
{
    PlotView::resizeEvent(event);
    lay_out();
}

void TraceChart::changeEvent(QEvent* event)
{
    PlotView::changeEvent(event);
    if (event->type() == QEvent::FontChange) {
        lay_out();
    }
}

} // namespace zeroline::charts
