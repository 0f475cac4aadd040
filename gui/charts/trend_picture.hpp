#pragma once

#include "gui/charts/picture.hpp"
#include "gui/charts/plot_view.hpp"
#include "gui/session/unit_trend.hpp"

namespace zeroline::charts {

/// How a quantity went over the visits of a unit: each visit a dot in the colour of its verdict with U as a bar, its
/// limits as a band that holds halfway to the next visit, centre and limits of the individuals chart as fine lines.
/// Across: days, counted as QDate::toJulianDay() does; years stand above, or months where there are few.
struct TrendPicture {
    session::UnitTrend trend;

    /// All visits with room about them.
    [[nodiscard]] Reach all() const;
    [[nodiscard]] Picture between(double from_day, double to_day) const;
};

} // namespace zeroline::charts
