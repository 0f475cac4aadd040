#pragma once

#include "analysis/signal/blocks.hpp"
#include "analysis/signal/thinning.hpp"

#include <cstddef>
#include <vector>

namespace zeroline::signal {

/// Smallest deviation from both neighbours that a spike can have at this noise.
[[nodiscard]] double spike_floor(double noise_cmH2O, double larger_plateau_cmH2O) noexcept;

/// A stretch without its spikes, as if they had never come. Nothing is copied where there are none: the samples handed
/// in must outlive it.
///
/// A sample is a spike where it, or it and up to two neighbours, stand out from what lies on both sides by more than
/// the floor, and by more than the other samples around move (six on each side). Where those go up and down, that is
/// one and a half of their largest step: the peaks of rings and oscillations are none. Where they run one way (an
/// edge), a third of it. Up to five spikes may lie in the neighbourhood. Below five other samples nothing is a spike.
class ClearSamples {
public:
    ClearSamples(Samples samples, double floor_cmH2O);

    [[nodiscard]] Samples view() const noexcept { return spikes_.empty() ? samples_ : kept_.view(); }
    [[nodiscard]] const std::vector<Block>& blocks() const noexcept { return blocks_; } ///< of what is left
    /// Numbers that the spikes had in the stretch, rising.
    [[nodiscard]] const std::vector<std::size_t>& spikes() const noexcept { return spikes_; }
    /// The number in the stretch of a sample that is left.
    [[nodiscard]] std::size_t number_given(std::size_t index) const;

private:
    [[nodiscard]] std::size_t next_suspect(std::size_t i, double floor_cmH2O) const;
    [[nodiscard]] bool is_spike(std::size_t i, double floor_cmH2O) const;
    void take_out_spikes();

    Samples samples_;
    std::vector<Block> blocks_;
    std::vector<std::size_t> spikes_;
    OwnedSamples kept_; // where there are spikes
};

/// The same, the floor taken from the samples' own noise.
[[nodiscard]] ClearSamples without_spikes(Samples samples);

} // namespace zeroline::signal
