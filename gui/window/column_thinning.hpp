#pragma once

#include "gui/session/live_feed.hpp"

#include <span>
#include <vector>

namespace zeroline::window {

/// Fewer samples that draw the same picture: the lowest and the highest of each pixel column, in time order, and the
/// first and the last sample of all. At most 2 * columns + 2 come back; a single spike stays.
///
/// `samples` in time order; what lies outside [from_s, to_s] is left out. Columns below 1 or an empty interval:
/// nothing.
[[nodiscard]] std::vector<session::LiveSample> thinned_to_columns(std::span<const session::LiveSample> samples,
                                                                  double from_s, double to_s, int columns);

/// The end of a trace that goes on: appends, and forgets what is older than asked for, in blocks.
class TraceTail {
public:
    explicit TraceTail(double seconds) : seconds_(seconds) {}

    void append(std::span<const session::LiveSample> samples);
    void clear() { samples_.clear(); }

    [[nodiscard]] bool empty() const { return samples_.empty(); }
    [[nodiscard]] double seconds() const { return seconds_; }
    /// The samples of the last `seconds` before the newest one (inclusive).
    [[nodiscard]] std::span<const session::LiveSample> last(double seconds) const;
    /// Those of the whole span it keeps.
    [[nodiscard]] std::span<const session::LiveSample> all() const { return last(seconds_); }

private:
    double seconds_;
    std::vector<session::LiveSample> samples_;
};

} // namespace zeroline::window
