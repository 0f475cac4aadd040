#pragma once

#include "gui/session/live_feed.hpp"

#include <deque>
#include <optional>

namespace zeroline::session {

/// A quiet stretch at the open port.
struct QuietStretch {
    double from_s = 0.0;
    double to_s = 0.0;
    double mean_cmH2O = 0.0;
    double noise_cmH2O = 0.0; ///< standard deviation
};

/// Waits for a stretch of samples in which nothing moves. Single odd samples (spikes) do not disturb it.
class ZeroReading {
public:
    explicit ZeroReading(double length_s = 5.0) : length_s_(length_s) {}

    /// Samples before `time_s` are not looked at, and the stretch begins anew.
    void begin(double time_s);
    /// Samples up to `time_s` do not count; the stretch begins anew where it holds some.
    void not_before(double time_s);
    /// The stretch, once it is long enough and quiet.
    std::optional<QuietStretch> push(const LiveSample& sample);

    /// Share of the length that is there, 0 to 1.
    [[nodiscard]] double progress() const;
    /// The last full stretch was not quiet.
    [[nodiscard]] bool disturbed() const noexcept { return disturbed_; }
    /// The last full stretch, quiet or not.
    [[nodiscard]] const std::optional<QuietStretch>& last_stretch() const noexcept { return last_stretch_; }

private:
    double length_s_;
    double not_before_s_ = 0.0;
    bool disturbed_ = false;
    std::optional<QuietStretch> last_stretch_;
    std::deque<LiveSample> samples_;
};

} // namespace zeroline::session
