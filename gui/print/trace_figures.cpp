#include "gui/print/trace_figures.hpp"

#include "gui/charts/overlay_picture.hpp"
#include "gui/charts/trace_picture.hpp"

#include <algorithm>
#include <limits>

namespace zeroline::print {

namespace {

using session::PhaseBand;

constexpr double kOpen = std::numeric_limits<double>::infinity();
constexpr int kColumns = 1400; ///< points of a printer with 200 dots an inch across the page
constexpr double kUsualEdge_cmH2O = 50.0;
constexpr double kBefore_s = 0.2; ///< shown before the onset of a cycle
constexpr double kTitleStrip_mm = 3.6;
const Style kFigureTitle{.size_pt = 6.6, .bold = true};
const Style kEmpty{.size_pt = 7.2, .colour = QColor(0x50, 0x50, 0x50)};

double pause_level(const PrintedRecord& record, const QString& preset)
{
    const auto at = record.presets.indexOf(preset);
    return at < 0 ? 0.0 : record.figure("/prescription/" + std::to_string(at) + "/pause/pressure").value_or(0.0);
}

/// Limits of a pressure of a preset, as judged against the prescription.
std::optional<session::PressureBand> limits_of(const PrintedRecord& record, const QString& preset,
                                               const QString& measurand, double level_cmH2O)
{
    for (const auto& row : record.judgements) {
        if (row.preset == preset && row.against == "prescribed" && row.measurand == measurand && row.has_limits()) {
            return session::PressureBand{row.lower.value_or(-kOpen) + level_cmH2O,
                                         row.upper.value_or(kOpen) + level_cmH2O};
        }
    }
    return std::nullopt;
}

std::vector<PhaseBand> bands_of(const PrintedRecord& record, const CycleRow& cycle)
{
    std::vector<PhaseBand> bands;
    const auto add = [&](const std::optional<double>& start_s, const char* measurand, double level_cmH2O) {
        const auto limits = limits_of(record, cycle.preset, measurand, level_cmH2O);
        if (!start_s || !limits) {
            return;
        }
        double end_s = cycle.end_s;
        for (const auto& other : {cycle.insufflation_s, cycle.exsufflation_s, cycle.pause_s}) {
            end_s = other && *other > *start_s ? std::min(end_s, *other) : end_s;
        }
        bands.push_back({*start_s, end_s, *limits});
    };
    add(cycle.insufflation_s, "insufflation-pressure", 0.0);
    add(cycle.exsufflation_s, "exsufflation-pressure", 0.0);
    add(cycle.pause_s, "pause-residual", pause_level(record, cycle.preset));
    return bands;
}

session::RunMarks marks_of(const Pictured& pictured)
{
    session::RunMarks marks;
    for (const auto& cycle : pictured.record->cycles) {
        marks.cycles.push_back({cycle.index, cycle.start_s, cycle.end_s, cycle.judged});
        const auto bands = cycle.of_ladder ? std::vector<session::PhaseBand>{} : bands_of(*pictured.record, cycle);
        marks.bands.insert(marks.bands.end(), bands.begin(), bands.end());
    }
    marks.lost.assign(pictured.trace->gaps().begin(), pictured.trace->gaps().end());
    return marks;
}

QString span_words(const SpanRow& span)
{
    auto words = span.what;
    return words.replace("zero-before", "zero").replace("zero-after", "zero").replace('-', ' ') +
           (span.preset.isEmpty() ? "" : " " + QString::fromUtf8("\u00B7") + " " + span.preset);
}

double edge_of(const session::TraceHistory& trace)
{
    double edge = kUsualEdge_cmH2O;
    for (const auto& sample : trace.thinned(trace.first_s(), trace.last_s(), 1)) {
        edge = charts::edge_for(sample.pressure_cmH2O, edge);
    }
    return edge;
}

void draw_trace(const Pictured& pictured, PagePainter& painter, const QRectF& box)
{
    const auto& trace = *pictured.trace;
    const auto marks = marks_of(pictured);
    const charts::TracePicture wanted{trace, marks, 0.0, "s", "cmH2O", edge_of(trace), kColumns};
    auto picture = wanted.between(trace.first_s(), std::max(trace.last_s(), trace.first_s() + 1e-3));
    for (const auto& span : pictured.record->spans) {
        picture.marks << charts::Mark{span.from_s, span.to_s, span_words(span), 1};
    }
    painter.chart(picture, box);
}

session::CycleOverlay overlay_of(const Pictured& pictured, const std::vector<CycleRow>& cycles)
{
    session::CycleOverlay overlay;
    for (const auto& cycle : cycles) {
        session::OverlaidCycle cut{cycle.index, true, pictured.trace->between(cycle.start_s - kBefore_s, cycle.end_s)};
        for (auto& sample : cut.samples) {
            sample.time_s -= cycle.start_s;
        }
        overlay.cycles.push_back(std::move(cut));
    }
    overlay.median = session::median_curve(overlay.cycles);
    return overlay;
}

std::vector<PhaseBand> overlaid_bands(const PrintedRecord& record, const CycleRow& cycle)
{
    auto bands = bands_of(record, cycle);
    for (auto& band : bands) {
        band.from_s -= cycle.start_s;
        band.to_s -= cycle.start_s;
    }
    return bands;
}

QString title_of(const QString& preset, std::size_t count)
{
    return "Preset " + preset + ": " + QString::number(count) + (count == 1 ? " judged cycle" : " judged cycles") +
           (count > 1 ? ", their median bold" : "");
}

void draw_overlay(const Pictured& pictured, const QString& preset, PagePainter& painter, const QRectF& box)
{
    std::vector<CycleRow> cycles;
    std::copy_if(pictured.record->cycles.begin(), pictured.record->cycles.end(), std::back_inserter(cycles),
                 [&](const CycleRow& cycle) { return cycle.judged && !cycle.of_ladder && cycle.preset == preset; });
    const auto title = title_of(preset, cycles.size());
    painter.text_at(box.topLeft() + QPointF(0, kTitleStrip_mm / 2.0 - 0.3), title, fitting(title, kFigureTitle, box.width()),
                    Align::left);
    const auto inside = box.adjusted(0.0, kTitleStrip_mm, 0.0, 0.0);
    if (cycles.empty()) {
        painter.frame(inside, {0.12, QColor(0x80, 0x80, 0x80)});
        painter.text_at(inside.center(), "no judged cycle", kEmpty, Align::centre);
        return;
    }
    const charts::OverlayPicture overlay(overlay_of(pictured, cycles),
                                         overlaid_bands(*pictured.record, cycles.front()));
    auto picture = overlay.between(overlay.first_s(), overlay.last_s(), kColumns / 2, {"s", "cmH2O", "", "", "", ""});
    picture.legend = false;
    painter.chart(picture, inside);
}

} // namespace

Pictured pictured(std::shared_ptr<const PrintedRecord> record, const Numerals& numerals)
{
    const auto& trace = record->trace;
    const double zero = record->figure("/zero/before").value_or(0.0);
    auto history = std::make_shared<session::TraceHistory>(trace.sampling.rate_hz);
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const session::LiveSample sample{trace.time_s[i], trace.pressure_cmH2O[i] - zero};
        history->append({&sample, 1});
    }
    return {std::move(record), std::move(history), numerals};
}

PageBlock trace_figure(const Pictured& pictured, double height_mm)
{
    return drawing(
        height_mm, [pictured](PagePainter& painter, const QRectF& box) { draw_trace(pictured, painter, box); }, 1.0);
}

PageBlock overlay_figure(const Pictured& pictured, const QString& preset, double height_mm)
{
    return drawing(
        height_mm,
        [pictured, preset](PagePainter& painter, const QRectF& box) { draw_overlay(pictured, preset, painter, box); },
        1.0);
}

} // namespace zeroline::print
