#include "gui/print/figures.hpp"

#include <algorithm>

namespace zeroline::print {

namespace {

constexpr double kBefore_s = 0.2; ///< shown before the onset of a cycle
constexpr int kSteps = 600;
const Stroke kEach{0.1, QColor(0x88, 0x88, 0x88)};
const Stroke kMedian{0.32, QColor(0x00, 0x72, 0xB2)};
const Style kTitle{.size_pt = 6.6, .bold = true};
const Style kEmpty{.size_pt = 7.2, .colour = QColor(0x50, 0x50, 0x50)};
constexpr double kTitleStrip = 3.6;

std::vector<CycleRow> judged_cycles(const SavedRecord& record, const QString& preset)
{
    std::vector<CycleRow> cycles;
    std::copy_if(record.cycles.begin(), record.cycles.end(), std::back_inserter(cycles),
                 [&](const CycleRow& cycle) { return cycle.judged && cycle.preset == preset; });
    return cycles;
}

/// The middle value; of an even number the mean of the two in the middle.
double median(std::vector<double> values)
{
    std::sort(values.begin(), values.end());
    const auto middle = values.size() / 2;
    return values.size() % 2 == 1 ? values[middle] : (values[middle - 1] + values[middle]) / 2.0;
}

/// Each cycle on one time axis that begins with its onset, and the median where all were seen.
struct Overlay {
    std::vector<QPolygonF> each;
    QPolygonF median;
    Range time, pressure{0.0, 0.0};
};

Overlay overlay_of(const Samples& samples, const std::vector<CycleRow>& cycles)
{
    Overlay overlay;
    double longest = 0.0;
    for (const auto& cycle : cycles) {
        longest = std::max(longest, cycle.end_s - cycle.start_s);
    }
    overlay.time = {-kBefore_s, longest + kBefore_s};
    overlay.each.resize(cycles.size());
    for (int step = 0; step <= kSteps; ++step) {
        const double x = overlay.time.low + (overlay.time.high - overlay.time.low) * step / kSteps;
        std::vector<double> values;
        for (std::size_t i = 0; i < cycles.size(); ++i) {
            if (const auto value = samples.at(cycles[i].start_s + x)) {
                values.push_back(*value);
                overlay.each[i] << QPointF(x, *value);
                overlay.pressure.take_in(*value);
            }
        }
        if (values.size() == cycles.size()) {
            overlay.median << QPointF(x, median(values));
        }
    }
    return overlay;
}

QString title_of(const QString& preset, std::size_t count)
{
    return "Preset " + preset + ": " + QString::number(count) + (count == 1 ? " judged cycle" : " judged cycles") +
           (count > 1 ? ", their median bold" : "");
}

void draw(const Pictured& pictured, const QString& preset, Ink& ink, const QRectF& box)
{
    const auto cycles = judged_cycles(*pictured.record, preset);
    const auto title = title_of(preset, cycles.size());
    ink.text_at(box.topLeft() + QPointF(0, kTitleStrip / 2.0 - 0.3), title, fitting(title, kTitle, box.width()),
                Align::left);
    const QRectF inside(box.left() + kLeftOfPlot, box.top() + kTitleStrip, box.width() - kLeftOfPlot - 0.5,
                        box.height() - kTitleStrip - kBelowPlot);
    if (cycles.empty()) {
        ink.frame(inside, {0.12, QColor(0x80, 0x80, 0x80)});
        ink.text_at(inside.center(), "no judged cycle", kEmpty, Align::centre);
        return;
    }
    auto overlay = overlay_of(*pictured.samples, cycles);
    const auto bands = bands_of(*pictured.record, preset);
    take_in(overlay.pressure, bands);
    Plot plot(ink, inside, overlay.time, overlay.pressure.padded(0.05));
    draw_bands(plot, cycles.front(), bands, cycles.front().start_s);
    plot.axes("s", "pressure in cmH2O", pictured.numerals);
    for (const auto& curve : overlay.each) {
        plot.curve(curve, kEach);
    }
    plot.curve(overlay.median, kMedian);
}

} // namespace

Piece overlay_figure(const Pictured& pictured, const QString& preset, double height_mm)
{
    return drawing(
        height_mm, [pictured, preset](Ink& ink, const QRectF& box) { draw(pictured, preset, ink, box); }, 1.0);
}

} // namespace zeroline::print
