#pragma once

#include "analysis/signal/blocks.hpp"
#include "analysis/signal/phases.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace zeroline::signal {

/// Samples on each side that the spike test looks at.
inline constexpr std::size_t kSpikeReach = 6;

/// Whether sample `at` is a spike: it, or it and up to two neighbours, stand out from what lies on both sides by more
/// than `floor_cmH2O`, and by more than the other samples around move. Where those go up and down, that is one and a
/// half of their largest step: the peaks of rings and oscillations are none. Where they run one way (an edge), a third
/// of it. Up to five spikes may lie in the neighbourhood. Below five other samples nothing is a spike. `pressure_cmH2O`
/// holds kSpikeReach samples on each side, fewer only where the trace begins or ends.
[[nodiscard]] bool is_spike(std::span<const double> pressure_cmH2O, std::size_t at, double floor_cmH2O);

/// Smallest deviation from both neighbours that a spike can have at this noise.
[[nodiscard]] double spike_floor(double noise_cmH2O, double larger_plateau_cmH2O) noexcept;

/// A stretch without its spikes, as if they had never come. Nothing is copied where there are none: the samples handed
/// in must outlive it.
class ClearSamples {
public:
    /// `blocks` are those of the pressures.
    ClearSamples(Samples samples, const std::vector<Block>& blocks, double floor_cmH2O);

    [[nodiscard]] Samples view() const noexcept { return copied_ ? Samples{time_s_, pressure_} : samples_; }
    /// Numbers that the spikes had in the stretch, rising.
    [[nodiscard]] const std::vector<std::size_t>& spikes() const noexcept { return spikes_; }
    /// The number in the stretch of a sample that is left.
    [[nodiscard]] std::size_t number_given(std::size_t index) const;

private:
    [[nodiscard]] bool spike_at(std::size_t index, double floor_cmH2O) const;
    [[nodiscard]] double newest_kept(std::size_t index) const;
    void take_out(std::size_t index);

    Samples samples_;
    bool copied_ = false;
    std::vector<double> time_s_, pressure_;
    std::vector<std::size_t> spikes_;
};

} // namespace zeroline::signal
