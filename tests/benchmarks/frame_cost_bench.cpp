// What a frame of the trace costs, in software raster at 1200x700, beside a plain QLineSeries.

#include "gui/charts/trace_chart.hpp"

#include <QApplication>
#include <QChart>
#include <QChartView>
#include <QImage>
#include <QLineSeries>

#include <benchmark/benchmark.h>

#include <cmath>

namespace {

using zeroline::session::LiveSample;
using zeroline::session::TraceHistory;

constexpr QSize kSize(1200, 700);
constexpr double kRate_hz = 1000.0;

QApplication& application()
{
    static int argc = 1;
    static char name[] = "bench_frame_cost";
    static char* argv[] = {name, nullptr};
    qputenv("QT_QPA_PLATFORM", "offscreen");
    static auto* const the_one = new QApplication(argc, argv);
    return *the_one;
}

/// Cycles of +40 and -40 with a little noise.
LiveSample sample(std::int64_t i)
{
    const auto in_cycle = i % 5000;
    const double level = in_cycle < 1500 ? 40.0 : in_cycle < 3000 ? -40.0 : 0.0;
    return {static_cast<double>(i) / kRate_hz, level + 0.1 * std::sin(0.7 * static_cast<double>(i))};
}

/// A frame of the live view, 33 new samples each, with so many seconds behind it; or of everything.
void frame(benchmark::State& state, double behind_s, bool all)
{
    application();
    TraceHistory history(kRate_hz);
    std::int64_t next = 0;
    const auto grow = [&](std::int64_t count) {
        for (const auto end = next + count; next < end; ++next) {
            const auto one = sample(next);
            history.append({&one, 1});
        }
    };
    grow(static_cast<std::int64_t>(behind_s * kRate_hz));
    zeroline::charts::TraceChart chart;
    chart.resize(kSize);
    chart.show_trace(&history, !all);
    QImage image(kSize, QImage::Format_ARGB32_Premultiplied);
    for (auto _ : state) {
        if (!all)
            grow(33);
        chart.refresh();
        chart.render(&image);
        benchmark::DoNotOptimize(image.constBits());
    }
    state.counters["points"] = chart.points();
}

void live_frame_10_s_behind(benchmark::State& state) { frame(state, 10.0, false); }
void live_frame_an_hour_behind(benchmark::State& state) { frame(state, 3600.0, false); }
void whole_hour_in_one_frame(benchmark::State& state) { frame(state, 3600.0, true); }

void plain_line_series(benchmark::State& state)
{
    application();
    auto* series = new QLineSeries;
    QChartView view;
    view.chart()->addSeries(series);
    view.chart()->createDefaultAxes();
    view.chart()->legend()->hide();
    view.resize(kSize);
    QList<QPointF> points;
    for (std::int64_t i = 0; i < state.range(0); ++i) {
        const auto one = sample(i);
        points << QPointF(one.time_s, one.pressure_cmH2O);
    }
    QImage image(kSize, QImage::Format_ARGB32_Premultiplied);
    for (auto _ : state) {
        series->replace(points);
        static_cast<QWidget&>(view).render(&image);
        benchmark::DoNotOptimize(image.constBits());
    }
}

BENCHMARK(live_frame_10_s_behind)->Unit(benchmark::kMillisecond);
BENCHMARK(live_frame_an_hour_behind)->Unit(benchmark::kMillisecond);
BENCHMARK(whole_hour_in_one_frame)->Unit(benchmark::kMillisecond);
BENCHMARK(plain_line_series)->Arg(2'000)->Arg(200'000)->Unit(benchmark::kMillisecond);

} // namespace
