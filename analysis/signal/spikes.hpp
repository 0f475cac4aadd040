#pragma once

#include <cstddef>
#include <span>

namespace zeroline::signal {

/// Samples on each side that the spike test looks at.
inline constexpr std::size_t kSpikeReach = 4;

/// Whether sample `at` is a spike: one sample that stands out from both neighbours by more than `floor_cmH2O` and by
/// more than one and a half of the largest step between samples around it. Peaks of rings and oscillations are not: the
/// samples about them move as much as the peak does. Where fewer than two samples lie on a side, the nearest on the
/// other side serve; below four samples nothing is a spike.
[[nodiscard]] bool is_spike(std::span<const double> pressure_cmH2O, std::size_t at, double floor_cmH2O);

/// Smallest deviation from the mean of both neighbours that a spike can have at this noise.
[[nodiscard]] double spike_floor(double noise_cmH2O, double larger_plateau_cmH2O) noexcept;

} // namespace zeroline::signal
