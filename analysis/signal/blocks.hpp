#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace zeroline::signal {

/// Samples that are looked at together: few enough that one of them seldom spoils all, many enough that looking at the
/// blocks costs next to nothing.
inline constexpr std::size_t kBlock = 64;

/// What a block of samples holds.
struct Block {
    double lowest_cmH2O = 0.0;
    double highest_cmH2O = 0.0;
    double largest_step_cmH2O = 0.0; ///< magnitude, from the sample before the block on
};

/// Every kBlock samples of a stretch, in one pass; the last block may be shorter. Who looks for something skips the
/// blocks that cannot hold it.
[[nodiscard]] std::vector<Block> blocks_of(std::span<const double> pressure_cmH2O);

} // namespace zeroline::signal
