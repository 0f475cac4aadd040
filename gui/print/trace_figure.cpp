#include "gui/print/figures.hpp"

namespace zeroline::print {

namespace {

constexpr double kSpanStrip = 3.6;
constexpr double kStep_mm = 0.12; ///< one point of a printer with 200 dots an inch
const Stroke kTrace{0.18, QColor(0x00, 0x72, 0xB2)};
const Style kNumber{.size_pt = 6.2, .bold = true};
const Style kUnjudged{.size_pt = 5.8, .colour = QColor(0x50, 0x50, 0x50)};
const Style kSpan{.size_pt = 6.0, .colour = QColor(0x30, 0x30, 0x30)};

QRectF plot_box(const QRectF& box)
{
    return {box.left() + kLeftOfPlot, box.top() + kSpanStrip, box.width() - kLeftOfPlot - 0.5,
            box.height() - kSpanStrip - kBelowPlot};
}

Range pressure_range(const Pictured& pictured)
{
    auto range = pictured.samples->pressure();
    for (const auto& preset : pictured.record->presets) {
        take_in(range, bands_of(*pictured.record, preset));
    }
    range = range.padded(0.04);
    // Room for the cycle numbers over the curve.
    range.high += 0.12 * (range.high - range.low);
    return range;
}

QString span_words(const SpanRow& span)
{
    auto words = span.what;
    return words.replace("zero-before", "zero").replace("zero-after", "zero").replace('-', ' ') +
           (span.preset.isEmpty() ? "" : " " + QString::fromUtf8("\u00B7") + " " + span.preset);
}

void draw_spans(Ink& ink, const Plot& plot, const std::vector<SpanRow>& spans)
{
    const double y = plot.box().top() - kSpanStrip / 2.0 - 0.2;
    for (const auto& span : spans) {
        const double from = std::max(plot.at(span.from_s, 0).x(), plot.box().left());
        const double to = std::min(plot.at(span.to_s, 0).x(), plot.box().right());
        for (const double x : {from, to}) {
            ink.line({x, y - 1.2}, {x, plot.box().top()}, {0.1, QColor(0x60, 0x60, 0x60)});
        }
        auto words = span_words(span);
        if (width_mm(words, kSpan) > to - from - 1.0) {
            words = words.section(' ', 0, 0);
        }
        if (width_mm(words, kSpan) <= to - from + 1.0) {
            ink.text_at({(from + to) / 2.0, y}, words, kSpan, Align::centre);
        }
    }
}

/// Over each cycle its number; what is not judged in brackets. Left out where there is no room for them.
void draw_numbers(Ink& ink, const Plot& plot, const std::vector<CycleRow>& cycles)
{
    double last_right = plot.box().left();
    for (const auto& cycle : cycles) {
        const auto number = QString::number(cycle.index);
        const auto words = cycle.judged ? number : "(" + number + ")";
        const auto& style = cycle.judged ? kNumber : kUnjudged;
        const double middle = plot.at((cycle.start_s + cycle.end_s) / 2.0, 0).x();
        const double half = width_mm(words, style) / 2.0;
        if (middle - half < last_right + 1.2 || middle + half > plot.box().right()) {
            continue;
        }
        ink.text_at({middle, plot.box().top() + 1.8}, words, style, Align::centre);
        last_right = middle + half;
    }
}

void draw(const Pictured& pictured, Ink& ink, const QRectF& box)
{
    const auto& record = *pictured.record;
    Plot plot(ink, plot_box(box), pictured.samples->time().padded(0.002), pressure_range(pictured));
    for (const auto& cycle : record.cycles) {
        draw_bands(plot, cycle, bands_of(record, cycle.preset), 0.0);
    }
    plot.axes("s", "pressure in cmH2O", pictured.numerals);
    for (const auto& hole : pictured.samples->holes()) {
        plot.unknown(hole.from_s, hole.to_s);
    }
    const auto time = pictured.samples->time();
    const double step_s = (time.high - time.low) * kStep_mm / plot.box().width();
    for (const auto& curve : pictured.samples->curves(step_s)) {
        plot.curve(curve, kTrace);
    }
    draw_spans(ink, plot, record.spans);
    draw_numbers(ink, plot, record.cycles);
}

} // namespace

Piece trace_figure(const Pictured& pictured, double height_mm)
{
    return drawing(
        height_mm, [pictured](Ink& ink, const QRectF& box) { draw(pictured, ink, box); }, 1.0);
}

} // namespace zeroline::print
