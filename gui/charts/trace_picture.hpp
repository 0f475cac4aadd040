#pragma once

#include "gui/charts/picture.hpp"
#include "gui/session/run_marks.hpp"

namespace zeroline::charts {

/// A stretch of a trace as a picture: the line in at most two points a column, parted where nothing came in, with the
/// bands of the phases in it, lost stretches hatched, cycle numbers above.
struct TracePicture {
    const session::TraceHistory& history;
    const session::RunMarks& marks;
    double origin_s = 0.0; ///< the moment that the axis calls 0
    QString time_title, pressure_title;
    double edge_cmH2O = 50.0; ///< the axis goes so far at least, both ways
    int columns = 1;

    [[nodiscard]] Picture between(double from_s, double to_s) const;
};

/// Bands in view; those of few columns of pixels, a cycle apart, are one.
[[nodiscard]] QList<Area> areas_of(const std::vector<session::PhaseBand>& bands, double from_s, double to_s,
                                   double origin_s, int columns);
/// The next edge, in whole steps, that holds that pressure.
[[nodiscard]] double edge_for(double pressure_cmH2O, double least_cmH2O);

} // namespace zeroline::charts
