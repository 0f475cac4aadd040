#include "gui/charts/trace_picture.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace zeroline::charts {

namespace {

// An area costs a tenth of a millisecond, and a phase of few columns is seen as a part of its row.
constexpr double kNarrow = 3.0;              ///< columns of a band that is made one with the next of its limits
constexpr double kNear = 10.0;               ///< columns from the end of one to the end of the next
constexpr double kDense = 6.0;               ///< samples a column
constexpr double kFarthest_cmH2O = 10'000.0; // a wrong unit must not make an axis without ticks

Ground ground_of(session::PhaseBand::When when)
{
    switch (when) {
    case session::PhaseBand::When::now:
        return Ground::now;
    case session::PhaseBand::When::expected:
        return Ground::expected;
    case session::PhaseBand::When::seen:
        break;
    }
    return Ground::allowed;
}

double samples_a_column(const TracePicture& wanted, double width_s)
{
    const double whole_s = wanted.history.last_s() - wanted.history.first_s();
    const double share = whole_s > 0.0 ? std::min(1.0, width_s / whole_s) : 0.0;
    return share * static_cast<double>(wanted.history.size()) / wanted.columns;
}

/// A line across missing time would claim what nobody saw.
QList<Curve> curves_of(const TracePicture& wanted, double from_s, double to_s)
{
    const auto kept = wanted.history.thinned(from_s, to_s, wanted.columns);
    const auto pen = samples_a_column(wanted, to_s - from_s) > kDense ? Pen::dense : Pen::trace;
    const double column_s = (to_s - from_s) / wanted.columns, same_s = wanted.history.tick_s();
    const auto& gaps = wanted.history.gaps();
    auto gap = std::lower_bound(gaps.begin(), gaps.end(), from_s,
                                [](const session::Stretch& one, double time_s) { return one.to_s < time_s; });
    QList<Curve> curves;
    for (std::size_t i = 0; i < kept.size(); ++i) {
        while (gap != gaps.end() && i > 0 && gap->to_s <= kept[i - 1].time_s) {
            ++gap;
        }
        const bool parted = i > 0 && gap != gaps.end() && gap->to_s - gap->from_s > column_s &&
                            gap->from_s >= kept[i - 1].time_s - same_s && gap->to_s <= kept[i].time_s + same_s;
        if (parted || curves.isEmpty()) {
            curves << Curve{{}, pen};
        }
        curves.back().points << QPointF(kept[i].time_s - wanted.origin_s, kept[i].pressure_cmH2O);
    }
    return curves;
}

QList<Mark> marks_of(const session::RunMarks& marks, double from_s, double to_s, double origin_s)
{
    QList<Mark> made;
    for (const auto& cycle : marks.cycles) {
        if (cycle.to_s > from_s && cycle.from_s < to_s) {
            made << Mark{cycle.from_s - origin_s,
                         cycle.to_s - origin_s,
                         cycle.judged ? QString::number(cycle.index) : QStringLiteral("(%1)").arg(cycle.index),
                         0,
                         true,
                         !cycle.judged};
        }
    }
    return made;
}

} // namespace

double edge_for(double pressure_cmH2O, double least_cmH2O)
{
    constexpr double step_cmH2O = 10.0;
    const double reach = std::min(std::fabs(pressure_cmH2O), kFarthest_cmH2O);
    if (!(reach > least_cmH2O)) {
        return least_cmH2O;
    }
    // Close to zero an edge of 1, 2, 5; from there on in tens.
    for (const double edge : {1.0, 2.0, 5.0}) {
        if (reach <= edge) {
            return edge;
        }
    }
    return std::ceil(reach / step_cmH2O) * step_cmH2O;
}

QList<Area> areas_of(const std::vector<session::PhaseBand>& bands, double from_s, double to_s, double origin_s,
                     int columns)
{
    const double column_s = (to_s - from_s) / std::max(1, columns);
    QList<Area> areas;
    for (const auto& band : bands) {
        if (!(band.to_s > from_s) || !(band.from_s < to_s)) {
            continue;
        }
        const Area area{band.from_s - origin_s, band.to_s - origin_s, band.band.low_cmH2O, band.band.high_cmH2O,
                        ground_of(band.when)};
        // The last one with the same limits stands within a cycle: only a few of the newest are looked at.
        const auto alike =
            std::find_if(areas.rbegin(), areas.rbegin() + std::min<qsizetype>(8, areas.size()), [&](const Area& one) {
                return one.low == area.low && one.high == area.high && one.ground == area.ground &&
                       area.to - one.to < kNear * column_s;
            });
        const bool narrow = band.to_s - band.from_s < kNarrow * column_s;
        if (narrow && alike != areas.rbegin() + std::min<qsizetype>(8, areas.size())) {
            alike->to = std::max(alike->to, area.to);
        } else {
            areas << area;
        }
    }
    return areas;
}

Picture TracePicture::between(double from_s, double to_s) const
{
    Picture made;
    made.across = {from_s - origin_s, to_s - origin_s, time_title};
    made.up = {-edge_cmH2O, edge_cmH2O, pressure_title};
    if (marks.zero) {
        made.areas << Area{made.across.low, made.across.high, marks.zero->low_cmH2O, marks.zero->high_cmH2O,
                           Ground::zero};
    }
    made.areas << areas_of(marks.bands, from_s, to_s, origin_s, columns);
    for (const auto& lost : marks.lost) {
        if (lost.to_s > from_s && lost.from_s < to_s) {
            constexpr auto all = std::numeric_limits<double>::infinity();
            made.areas << Area{lost.from_s - origin_s, lost.to_s - origin_s, -all, all, Ground::missing};
        }
    }
    made.curves = curves_of(*this, from_s, to_s);
    made.marks = marks_of(marks, from_s, to_s, origin_s);
    return made;
}

} // namespace zeroline::charts
