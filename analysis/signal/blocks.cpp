#include "analysis/signal/blocks.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace zeroline::signal {
namespace {

constexpr std::size_t kLanes = 4; // comparisons that do not wait for each other

Block merged(const std::array<Block, kLanes>& lanes)
{
    Block block = lanes[0];
    for (const Block& lane : lanes) {
        block.lowest_cmH2O = std::min(block.lowest_cmH2O, lane.lowest_cmH2O);
        block.highest_cmH2O = std::max(block.highest_cmH2O, lane.highest_cmH2O);
        block.largest_step_cmH2O = std::max(block.largest_step_cmH2O, lane.largest_step_cmH2O);
    }
    return block;
}

void take(Block& block, double before, double value)
{
    block.lowest_cmH2O = std::min(block.lowest_cmH2O, value);
    block.highest_cmH2O = std::max(block.highest_cmH2O, value);
    block.largest_step_cmH2O = std::max(block.largest_step_cmH2O, std::abs(value - before));
}

} // namespace

std::vector<Block> blocks_of(std::span<const double> pressure_cmH2O)
{
    const std::size_t count = pressure_cmH2O.size();
    std::vector<Block> blocks;
    blocks.reserve((count + kBlock - 1) / kBlock);
    for (std::size_t first = 0; first < count; first += kBlock) {
        const std::size_t last = std::min(count, first + kBlock);
        const double start = pressure_cmH2O[first];
        std::array<Block, kLanes> lanes;
        lanes.fill({start, start, first > 0 ? std::abs(start - pressure_cmH2O[first - 1]) : 0.0});
        std::size_t i = first + 1;
        for (; i + kLanes <= last; i += kLanes) {
            for (std::size_t k = 0; k < kLanes; ++k) {
                take(lanes[k], pressure_cmH2O[i + k - 1], pressure_cmH2O[i + k]);
            }
        }
        for (; i < last; ++i) {
            take(lanes[0], pressure_cmH2O[i - 1], pressure_cmH2O[i]);
        }
        blocks.push_back(merged(lanes));
    }
    return blocks;
}

} // namespace zeroline::signal
