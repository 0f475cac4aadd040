#pragma once

#include "acquisition/trace/transfers.hpp"

#include <span>
#include <vector>

namespace zeroline::trace {

/// A smooth curve through scattered points: values at equally spaced places, straight between them.
struct SmoothCurve {
    double begin = 0.0;
    double step = 1.0;
    std::vector<double> values; ///< at least two
    /// Beyond the ends the last stretch goes on.
    [[nodiscard]] double at(double x) const noexcept;
};

/// Points (`index`, `stamp_s`) that scatter by `scatter_s` each, smoothed with `pieces` stretches whose slope changes
/// by about `bend` from one to the next; a straight line costs nothing. Outliers count less. Points in order, two or
/// more.
[[nodiscard]] SmoothCurve smooth(std::span<const StampPoint> points, std::size_t pieces, double scatter_s, double bend);

} // namespace zeroline::trace
