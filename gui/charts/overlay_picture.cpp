#include "gui/charts/overlay_picture.hpp"

#include "gui/charts/trace_picture.hpp"

#include <algorithm>

namespace zeroline::charts {

namespace {

QList<QPointF> points_of(const session::TraceHistory& history, double from_s, double to_s, int columns)
{
    QList<QPointF> points;
    for (const auto& sample : history.thinned(from_s, to_s, columns)) {
        points << QPointF(sample.time_s, sample.pressure_cmH2O);
    }
    return points;
}

} // namespace

OverlayPicture::OverlayPicture(const session::CycleOverlay& overlay, std::vector<session::PhaseBand> bands,
                               const std::vector<session::LiveSample>& earlier)
    : bands_(std::move(bands))
{
    median_.append(overlay.median);
    earlier_.append(earlier);
    for (const auto& cycle : overlay.cycles) {
        if (cycle.samples.empty()) {
            continue;
        }
        first_s_ = std::min(first_s_, cycle.samples.front().time_s);
        last_s_ = std::max(last_s_, cycle.samples.back().time_s);
        for (const auto& sample : cycle.samples) {
            edge_cmH2O_ = edge_for(sample.pressure_cmH2O, edge_cmH2O_);
        }
        cycles_.push_back({cycle.judged, session::TraceHistory()});
        cycles_.back().samples.append(cycle.samples);
    }
}

Picture OverlayPicture::between(double from_s, double to_s, int columns, const Words& words) const
{
    Picture made;
    made.across = {from_s, to_s, words.time_title};
    made.up = {-edge_cmH2O_, edge_cmH2O_, words.pressure_title};
    made.areas = areas_of(bands_, from_s, to_s, 0.0, columns);
    made.legend = true;
    bool named[2] = {false, false};
    for (const auto& cycle : cycles_) {
        // A cycle that is not judged is shown, and seen to be none of the others.
        auto& told = named[cycle.judged ? 0 : 1];
        const auto name = std::exchange(told, true) ? QString() : cycle.judged ? words.cycle : words.unjudged;
        made.curves << Curve{points_of(cycle.samples, from_s, to_s, columns), cycle.judged ? Pen::cycle : Pen::unjudged,
                             name};
    }
    if (!earlier_.empty()) {
        made.curves << Curve{points_of(earlier_, from_s, to_s, columns), Pen::earlier, words.earlier};
    }
    if (!median_.empty()) {
        made.curves << Curve{points_of(median_, from_s, to_s, columns), Pen::median, words.median};
    }
    return made;
}

} // namespace zeroline::charts
