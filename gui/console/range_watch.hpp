#pragma once

#include "gui/session/live_feed.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace zeroline::console {

/// Sees readings that the instrument's own range does not hold: they come of a wrong unit, field or scale, or the
/// sensor is at its end.
class RangeWatch {
public:
    explicit RangeWatch(const trace::SensorRange& range);

    /// One sentence at the first reading beyond the range; else empty.
    std::string take(const std::vector<session::LiveSample>& samples);
    [[nodiscard]] std::uint64_t beyond() const noexcept { return beyond_; }

private:
    double low_cmH2O_;
    double high_cmH2O_;
    std::uint64_t beyond_ = 0;
};

} // namespace zeroline::console
