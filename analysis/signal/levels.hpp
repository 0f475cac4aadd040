#pragma once

#include "analysis/signal/blocks.hpp"
#include "analysis/signal/phases.hpp"

#include <optional>
#include <vector>

namespace zeroline::signal {

/// Samples [first, last) whose times lie in a closed interval.
struct SampleWindow {
    std::size_t first = 0;
    std::size_t last = 0;
    [[nodiscard]] std::size_t size() const noexcept { return last - first; }
};
[[nodiscard]] SampleWindow samples_between(Samples samples, double from_s, double to_s);

/// Time-weighted mean of the straight lines between the samples inside an interval; from its outermost samples to its
/// ends their values are kept. No sample inside: the straight line at its middle. No samples at all: 0.
[[nodiscard]] double window_mean(Samples samples, double from_s, double to_s);

/// A window's mean, line and scatter.
struct WindowFit {
    Level level;
    double slope_cmH2O_per_s = 0.0;
    double ripple_cmH2O = 0.0; ///< standard deviation about the line, n - 2
};

/// Mean, least-squares line, scatter about it and standard uncertainty of the mean. None where no sample lies inside.
/// `noise_cmH2O` keeps the uncertainty honest where few samples happen to agree.
[[nodiscard]] std::optional<WindowFit> fit_window(Samples samples, double from_s, double to_s, double noise_cmH2O);

/// Part of a phase, from fractions of its duration.
struct Interval {
    double from_s = 0.0;
    double to_s = 0.0;
    [[nodiscard]] double length_s() const noexcept { return to_s - from_s; }
    [[nodiscard]] Interval part(double from, double to) const noexcept
    {
        return {from_s + from * (to_s - from_s), from_s + to * (to_s - from_s)};
    }
};

/// Where the level of a phase is taken, in fractions of its duration: 50 to 90 %, of a pause its last quarter.
[[nodiscard]] Interval level_interval(PhaseKind kind, Interval phase) noexcept;

/// The extreme value of a phase away from the rest (`sign` +1 or -1). `blocks`: those of all the samples.
[[nodiscard]] std::optional<double> peak_of(Samples samples, const std::vector<Block>& blocks, Interval phase,
                                            int sign);

} // namespace zeroline::signal
