#include "gui/window/live_chart.hpp"

#include "gui/window/column_thinning.hpp"

#include <QtCharts/QChart>
#include <QtCharts/QChartView>
#include <QtCharts/QLineSeries>
#include <QtCharts/QValueAxis>

#include <QPalette>
#include <QPen>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace zeroline::window {

namespace {

constexpr double kFirstEdge_cmH2O = 50.0;
constexpr double kEdgeStep_cmH2O = 10.0;
constexpr int kPressureTicks = 11;
constexpr double kSecondsPerTick = 2.0;
constexpr double kTraceWidth_px = 1.5;

// Okabe and Ito's palette, which the colour-blind can tell apart; the lighter blue on dark ground.
const QColor kTraceOnLight(0x00, 0x72, 0xB2);
const QColor kTraceOnDark(0x56, 0xB4, 0xE9);

bool is_dark(const QPalette& palette) { return palette.color(QPalette::Window).lightness() < 128; }

} // namespace

class LiveChart::Picture : public QChartView {
public:
    explicit Picture(QWidget* parent) : QChartView(parent)
    {
        chart()->addSeries(zero_);
        chart()->addSeries(line_);
        chart()->legend()->hide();
        chart()->setMargins({});
        chart()->setAnimationOptions(QChart::NoAnimation);
        set_up_axes();
        set_colours();
        // The frame holds labels and a picture: the view itself is nothing to tab to.
        setFocusPolicy(Qt::NoFocus);
    }

    void set_up_axes()
    {
        time_->setTitleText(LiveChart::tr("seconds before now"));
        time_->setLabelFormat("%d");
        time_->setTickType(QValueAxis::TicksDynamic);
        time_->setTickInterval(kSecondsPerTick);
        pressure_->setTitleText(LiveChart::tr("pressure in cmH2O"));
        pressure_->setLabelFormat("%+d");
        pressure_->setTickCount(kPressureTicks);
        chart()->addAxis(time_, Qt::AlignBottom);
        chart()->addAxis(pressure_, Qt::AlignLeft);
        for (auto* series : {line_, zero_}) {
            series->attachAxis(time_);
            series->attachAxis(pressure_);
        }
        reset_edges();
    }

    void set_colours()
    {
        const auto ink = palette().color(QPalette::WindowText);
        auto faint = ink;
        faint.setAlphaF(0.2F);
        chart()->setBackgroundBrush(palette().brush(QPalette::Base));
        line_->setPen(QPen(is_dark(palette()) ? kTraceOnDark : kTraceOnLight, kTraceWidth_px));
        zero_->setPen(QPen(ink, 1.0, Qt::DashLine));
        for (auto* axis : {time_, pressure_}) {
            axis->setLabelsBrush(ink);
            axis->setTitleBrush(ink);
            axis->setLinePenColor(ink);
            axis->setGridLinePen(QPen(faint, 1.0));
        }
    }

    void reset_edges() { set_edges(-kFirstEdge_cmH2O, kFirstEdge_cmH2O); }

    void set_edges(double low, double high) { pressure_->setRange(low, high); }

    void widen_to(std::span<const session::LiveSample> samples)
    {
        double reach = pressure_->max();
        for (const auto& sample : samples)
            reach = std::max(reach, std::abs(sample.pressure_cmH2O));
        // The same step on both sides keeps zero in the middle and on a grid line.
        if (reach > pressure_->max())
            set_edges(-(std::ceil(reach / kEdgeStep_cmH2O) * kEdgeStep_cmH2O),
                      std::ceil(reach / kEdgeStep_cmH2O) * kEdgeStep_cmH2O);
    }

    void draw(std::span<const session::LiveSample> samples, double seconds)
    {
        const double now_s = samples.empty() ? 0.0 : samples.back().time_s;
        const int columns = std::max(1, static_cast<int>(chart()->plotArea().width()));
        const auto kept = thinned_to_columns(samples, now_s - seconds, now_s, columns);
        widen_to(kept);
        time_->setRange(-seconds, 0.0);
        QList<QPointF> points;
        points.reserve(static_cast<qsizetype>(kept.size()));
        for (const auto& sample : kept)
            points.append({sample.time_s - now_s, sample.pressure_cmH2O});
        line_->replace(points);
        zero_->replace(QList<QPointF>{{-seconds, 0.0}, {0.0, 0.0}});
    }

    [[nodiscard]] int points() const { return static_cast<int>(line_->count()); }
    [[nodiscard]] const QValueAxis& pressure() const { return *pressure_; }

protected:
    void changeEvent(QEvent* event) override
    {
        if (event->type() == QEvent::PaletteChange)
            set_colours();
        QChartView::changeEvent(event);
    }

private:
    QLineSeries* zero_ = new QLineSeries; // the chart takes them over
    QLineSeries* line_ = new QLineSeries;
    QValueAxis* time_ = new QValueAxis;
    QValueAxis* pressure_ = new QValueAxis;
};

LiveChart::LiveChart(QWidget* parent) : QWidget(parent), picture_(new Picture(this))
{
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(picture_);
    setAccessibleName(tr("live trace"));
    setMinimumSize(400, 240);
}

void LiveChart::show_samples(std::span<const session::LiveSample> samples, double seconds)
{
    picture_->draw(samples, seconds);
}

int LiveChart::points() const { return picture_->points(); }
double LiveChart::lower_edge_cmH2O() const { return picture_->pressure().min(); }
double LiveChart::upper_edge_cmH2O() const { return picture_->pressure().max(); }
void LiveChart::reset_edges() { picture_->reset_edges(); }

} // namespace zeroline::window
