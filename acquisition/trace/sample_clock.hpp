#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace zeroline::trace {

/// Sample times of a free-running instrument from the arrival times of its readings: a straight line of arrival against
/// count. Arrival stamps come in batches and are never differenced.
struct ClockFit {
    double interval_s = 0.0; ///< between samples
    double first_s = 0.0;    ///< time of count 0 of the series handed in
    double residual_s = 0.0; ///< rms of arrival minus line
    [[nodiscard]] double time_of(double index) const noexcept { return first_s + interval_s * index; }
};

/// Final fit over a whole series. `index` increases strictly (lost readings leave holes), same length as `arrival_s`.
/// Nothing where there are fewer than two readings.
[[nodiscard]] std::optional<ClockFit> fit_clock(std::span<const double> arrival_s, std::span<const std::int64_t> index);

/// Causal sample times for the live display: provisional, bounded memory.
class LiveClock {
public:
    explicit LiveClock(std::optional<double> nominal_hz);
    /// Time of the reading that arrived at `arrival_s`; `index` as above.
    [[nodiscard]] double push(double arrival_s, std::int64_t index);

private:
    double interval_s_ = 0.0;
    double n_ = 0, mean_index_ = 0, mean_arrival_ = 0, s_ii_ = 0, s_ia_ = 0;
    double last_s_ = 0;
};

} // namespace zeroline::trace
