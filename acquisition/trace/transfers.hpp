#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace zeroline::trace {

/// What one transfer over the line says: every reading up to `last` existed when it came, `next` did not yet.
struct Transfer {
    double stamp_s = 0.0;
    double last = 0.0; ///< index of the freshest reading it brought
    double next = 0.0; ///< index of the first reading of the transfer behind it
};

/// Readings that came together, seen as one. `reading_s`: roughly, between readings. Calls `take` for each transfer but
/// the very last, whose `next` nobody knows.
template <class Take>
void for_each_transfer(std::span<const double> arrival_s, std::span<const std::int64_t> index, double reading_s,
                       Take&& take)
{
    // One read of the port may take a moment to be stamped line by line.
    const double together_s = 0.25 * reading_s;
    for (std::size_t i = 0; i + 1 < arrival_s.size(); ++i) {
        if (arrival_s[i + 1] - arrival_s[i] > together_s) {
            take(Transfer{arrival_s[i], static_cast<double>(index[i]), static_cast<double>(index[i + 1])});
        }
    }
}

/// A straight line of stamps over indices, `stamp = first_s + interval_s * index`.
struct StampLine {
    double interval_s = 0.0;
    double first_s = 0.0;
    [[nodiscard]] double at(double index) const noexcept { return first_s + interval_s * index; }
};

/// A point of a weighted line fit.
struct StampPoint {
    double index = 0.0;
    double stamp_s = 0.0;
};

/// Least squares in which what comes far too late, or far too early, counts less (Huber's weights). The measure of
/// 'far' is the scatter on the early side: trouble on the way only delays. At least two points with different indices.
[[nodiscard]] StampLine robust_line(std::span<const StampPoint> points);

/// Scatter of residuals: median minus the 16th percentile, for a normal distribution one standard deviation. Reorders.
[[nodiscard]] double early_scatter(std::vector<double>& residuals);

/// Intervals between samples for which a straight clock explains every transfer: what a transfer brought was sampled
/// before it, what the next one brought after it.
struct IntervalBounds {
    double low_s = 0.0;
    double high_s = 0.0;
};

/// `slack_s` is how much a stamp may be off. Nothing where no straight clock explains them all.
[[nodiscard]] std::optional<IntervalBounds> interval_bounds(std::span<const Transfer> transfers, double roughly_s,
                                                            double slack_s);

/// Transfers with their stamps set to the regular beat that the line's timer gives them.
struct RegularBeat {
    std::vector<Transfer> transfers; ///< those too far off the beat are left out
    double scatter_s = 0.0;          ///< of the stamps about the beat
};

/// Nothing where there is no such beat. `interval_s`: roughly, per index; `reading_s`: between readings that
/// came.
[[nodiscard]] std::optional<RegularBeat> on_a_regular_beat(std::span<const Transfer> transfers, double interval_s,
                                                           double reading_s);

} // namespace zeroline::trace
