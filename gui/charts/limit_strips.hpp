#pragma once

#include "gui/charts/picture.hpp"
#include "gui/session/result_view.hpp"

#include <optional>
#include <vector>

namespace zeroline::charts {

/// Each judged quantity as a strip: its limits as a band of one width whatever the unit, what is prescribed as a fine
/// line, the mean as a small dot, the worst value as a large one with its expanded uncertainty as a bar. A quantity
/// without limits or without a value has none. The first row stands on top.
[[nodiscard]] Picture limit_strips(const std::vector<session::ResultRow>& rows);

/// In the colour of a verdict.
[[nodiscard]] Pen pen_of(session::Tone tone);

/// Where a value stands between limits: 0 the lower, 1 the upper one; a limit that is not there lies as far on the
/// other side of what is prescribed, or of zero. What is never below nothing, such as a time, begins at 0.
struct StripScale {
    double lower = 0.0, upper = 1.0;
    bool open_below = false, open_above = false;

    /// None where there is no limit at all.
    [[nodiscard]] static std::optional<StripScale> of(const session::JudgementRow& row);
    [[nodiscard]] double at(double value) const { return (value - lower) / (upper - lower); }
};

} // namespace zeroline::charts
