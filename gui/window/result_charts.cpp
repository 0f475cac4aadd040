#include "gui/window/result_charts.hpp"

#include "gui/charts/close_up.hpp"
#include "gui/charts/limit_strips.hpp"
#include "gui/charts/overlay_chart.hpp"
#include "gui/charts/picture_view.hpp"
#include "gui/charts/trace_chart.hpp"
#include "gui/records/earlier.hpp"
#include "gui/session/saved_cycles.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/register_reader.hpp"

#include <QComboBox>
#include <QSplitter>
#include <QVBoxLayout>

#include <algorithm>

namespace zeroline::window {

namespace {

constexpr int kLines = 11;         ///< height of a chart, in lines of writing
constexpr int kTraceLines = 15;    ///< of the whole trace
constexpr int kLettersOfZero = 28; ///< width of the zero readings, for the words of their legend

/// The record that lies inside this one, the attempt before or the unit as it was found; empty: none.
std::filesystem::path held_in(const std::filesystem::path& folder)
{
    for (const auto* relation : {"attempt", "as-found"}) {
        const auto held = folder / records::held_folder(relation);
        if (std::filesystem::exists(held / "trace.csv")) {
            return held;
        }
    }
    return {};
}

/// Of the newest record of the unit that began before, and is from where this one is.
std::filesystem::path visit_before(const unit_register::UnitRegister& units, const std::string& asset,
                                   const std::string& origin, const std::string& began)
{
    const auto last = units.last_of(asset, origin, began);
    if (last.empty() || !last[0]["folder"].is_string()) {
        return {};
    }
    return last[0]["folder"].get<std::string>();
}

std::vector<session::LiveSample> reading_of(const trace::Trace& trace, const verification::Span& span)
{
    std::vector<session::LiveSample> samples;
    const auto first = std::lower_bound(trace.time_s.begin(), trace.time_s.end(), span.from_s);
    for (auto i = static_cast<std::size_t>(first - trace.time_s.begin());
         i < trace.size() && trace.time_s[i] <= span.to_s; ++i) {
        samples.push_back({trace.time_s[i] - span.from_s, trace.pressure_cmH2O[i]});
    }
    return samples;
}

/// The plateaus of that phase, against what is prescribed.
bool is_plateau(const session::JudgementRow& row, const std::string& preset, signal::PhaseKind phase)
{
    const auto& known = row.known();
    return known.kind == verification::MeasurandKind::pressure && known.phase == phase && row.against == "prescribed" &&
           row.preset.toStdString() == preset;
}

QSplitter* side_by_side(const char* name, std::initializer_list<std::pair<QWidget*, int>> parts)
{
    auto* splitter = named(new QSplitter, name, {});
    splitter->setChildrenCollapsible(false);
    for (const auto& [widget, share] : parts) {
        splitter->addWidget(widget);
        splitter->setStretchFactor(splitter->count() - 1, share);
    }
    return splitter;
}

} // namespace

ResultCharts::ResultCharts(QWidget* parent) : QWidget(parent)
{
    preset_ = named(new QComboBox, "preset", tr("preset"));
    preset_->setMinimumHeight(kTarget_px);
    overlay_ = new charts::OverlayChart;
    insufflation_ = new charts::PictureView("closeUpInsufflation", tr("plateaus of insufflation about their limits"));
    exsufflation_ = new charts::PictureView("closeUpExsufflation", tr("plateaus of exsufflation about their limits"));
    zero_ = new charts::PictureView("closeUpZero", tr("zero readings"));
    trace_ = new charts::TraceChart;
    trace_->setObjectName(QStringLiteral("wholeTrace"));
    zero_->setMinimumWidth(kLettersOfZero * fontMetrics().averageCharWidth());
    whole_ = side_by_side("traceSplitter", {{trace_, 5}, {zero_, 2}});
    auto* plateaus = side_by_side("plateausSplitter", {{insufflation_, 1}, {exsufflation_, 1}});
    overlay_->setMinimumHeight(kLines * fontMetrics().height());
    plateaus->setMinimumHeight(kLines * fontMetrics().height());
    whole_->setMinimumHeight(kTraceLines * fontMetrics().height());
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(preset_, 0, Qt::AlignLeft);
    layout->addWidget(overlay_, 1);
    layout->addWidget(plateaus, 1);
    connect(preset_, &QComboBox::currentTextChanged, this, &ResultCharts::show_preset);
}

verification::HouseProfile ResultCharts::house() const
{
    const auto& bench = result_->evidence.bench;
    return bench ? bench->meaning.house : verification::HouseProfile::standard();
}

/// Zero is subtracted from what is shown after the run.
session::PhaseLimits ResultCharts::limits() const
{
    return {result_->assessed.assessment, result_->evidence.order.meaning, house(), 0.0};
}

void ResultCharts::show_result(const session::RunResult& result, const session::ResultView& view,
                               const std::filesystem::path& folder)
{
    result_ = &result;
    view_ = &view;
    folder_ = folder;
    show_trace();
    show_zero();
    const auto& presets = result.evidence.order.meaning.presets;
    {
        const QSignalBlocker quiet(preset_);
        preset_->clear();
        for (const auto& preset : presets) {
            preset_->addItem(QString::fromStdString(preset.name));
        }
    }
    preset_->setVisible(presets.size() > 1);
    show_preset();
}

void ResultCharts::show_trace()
{
    const auto& assessment = result_->assessed.assessment;
    const auto& trace = result_->evidence.trace;
    const double zero = assessment.zero.before.value_or(0.0);
    history_ = session::TraceHistory(assessment.sampling.rate_hz);
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const session::LiveSample sample{trace.time_s[i], trace.pressure_cmH2O[i] - zero};
        history_.append({&sample, 1});
    }
    session::RunMarks marks;
    marks.cycles = session::cycle_marks(assessment);
    marks.lost.assign(history_.gaps().begin(), history_.gaps().end());
    marks.bands = limits().seen(assessment);
    trace_->show_trace(&history_, false);
    trace_->show_marks(std::move(marks));
}

/// As the instrument read them: nothing is subtracted.
void ResultCharts::show_zero()
{
    charts::ZeroCloseUp close{{}, {}, session::zero_offset_band(house())};
    if (result_->evidence.run) {
        for (const auto& span : result_->evidence.run->meaning.spans) {
            const bool before = span.what == verification::SpanKind::zero_before;
            if (before || span.what == verification::SpanKind::zero_after) {
                close.readings.push_back(reading_of(result_->evidence.trace, span));
                close.names.push_back(before ? tr("before") : tr("after"));
            }
        }
    }
    zero_->setVisible(!close.readings.empty());
    const charts::Reach all{0.0, close.length_s()};
    zero_->show_picture(all, [close = std::move(close)](const charts::Reach& part, int columns) {
        return close.between(part.from, part.to, columns);
    });
}

void ResultCharts::show_preset()
{
    const auto preset = preset_->currentText().toStdString();
    if (result_ == nullptr || preset.empty()) {
        return;
    }
    const auto& assessment = result_->assessed.assessment;
    overlaid_ = session::overlay(result_->evidence.trace, assessment, preset);
    bands_ = session::overlaid_bands(limits().seen(assessment), assessment, preset);
    overlay_->show_cycles({overlaid_, bands_});
    ask_for_visit_before(preset);
    show_close_up(insufflation_, overlaid_, bands_, signal::PhaseKind::insufflation);
    show_close_up(exsufflation_, overlaid_, bands_, signal::PhaseKind::exsufflation);
}

/// Its median comes under the cycles once it was found and measured, which the window does not wait for.
void ResultCharts::ask_for_visit_before(const std::string& preset)
{
    const int number = ++shown_;
    const auto held = held_in(folder_);
    if (reader_ == nullptr || (held.empty() && !result_->evidence.run)) {
        return;
    }
    const auto asset = result_->evidence.order.meaning.unit.asset;
    const auto began = held.empty() ? result_->evidence.run->meaning.began : std::string();
    reader_->ask<std::vector<session::LiveSample>>(
        [=, origin = view_->origin.toStdString()](const auto& units) {
            const auto before = held.empty() ? visit_before(units, asset, origin, began) : held;
            return session::saved_cycles(before, preset).median;
        },
        [this, number](const auto& median) {
            if (number == shown_) {
                overlay_->show_cycles({overlaid_, bands_, median});
            }
        });
}

void ResultCharts::show_close_up(charts::PictureView* view, const session::CycleOverlay& overlay,
                                 const std::vector<session::PhaseBand>& bands, signal::PhaseKind phase)
{
    const auto& assessment = result_->assessed.assessment;
    const auto preset = preset_->currentText().toStdString();
    const auto cycle = std::find_if(assessment.cycles.begin(), assessment.cycles.end(), [&](const auto& one) {
        return one.judged && one.preset == preset && !is_of_ladder(one, assessment);
    });
    const auto row = std::find_if(view_->rows.begin(), view_->rows.end(),
                                  [&](const auto& one) { return is_plateau(one.is, preset, phase); });
    const auto* seen = cycle == assessment.cycles.end()           ? nullptr
                       : phase == signal::PhaseKind::insufflation ? &cycle->insufflation
                                                                  : &cycle->exsufflation;
    const bool there = row != view_->rows.end() && seen != nullptr && *seen && row->is.worst;
    view->setVisible(there);
    if (!there) {
        return;
    }
    charts::CloseUp close{
        {overlay, bands}, *row, (*seen)->first_time_s - cycle->start_s, (*seen)->last_time_s - cycle->start_s};
    const charts::Reach all{close.from_s, close.to_s};
    view->show_picture(all, [close = std::move(close)](const charts::Reach& part, int columns) {
        return close.between(part.from, part.to, columns);
    });
}

charts::PictureView* make_limit_strips()
{
    return new charts::PictureView("limitStrips", ResultCharts::tr("worst values against their limits"));
}

void show_limit_strips(charts::PictureView* strips, const session::ResultView& view)
{
    constexpr double lines_a_strip = 2.2, lines_above = 2.0;
    const auto picture = charts::limit_strips(view.rows);
    const auto count = static_cast<double>(picture.up.rows.size());
    strips->setVisible(count > 0);
    strips->setFixedHeight(
        static_cast<int>((lines_above + lines_a_strip * count) * strips->fontMetrics().lineSpacing()));
    strips->show_picture({picture.across.low, picture.across.high},
                         [picture](const charts::Reach& part, int /*columns*/) {
                             auto made = picture;
                             made.across.low = part.from;
                             made.across.high = part.to;
                             return made;
                         });
}

} // namespace zeroline::window
