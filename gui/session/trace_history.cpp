#include "gui/session/trace_history.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace zeroline::session {

namespace {

constexpr double kGapIntervals = 3.5; ///< "above three intervals" (docs/method.md), with room for live jitter
constexpr std::size_t kMostGaps = 1000;
constexpr double kTicksAnInterval = 256.0; ///< 16 bits then reach four times as far as a full block without gaps
constexpr double kUsualTick_s = 1.0 / 8192.0;

void add_if_later(std::vector<LiveSample>& kept, const LiveSample& sample)
{
    if (kept.empty() || kept.back().time_s < sample.time_s) {
        kept.push_back(sample);
    }
}

} // namespace

TraceHistory::TraceHistory(double nominal_hz)
    : gap_s_(nominal_hz > 0.0 ? kGapIntervals / nominal_hz : std::numeric_limits<double>::infinity()),
      tick_s_(nominal_hz > 0.0 ? 1.0 / (kTicksAnInterval * nominal_hz) : kUsualTick_s)
{
}

void TraceHistory::add(const LiveSample& sample)
{
    const auto ticks_in = [&](const Block& block) { return std::round((sample.time_s - block.base_s) / tick_s_); };
    // After a gap that the ticks of a block cannot bridge, another one begins.
    if (blocks_.empty() || blocks_.back().count == kBlock ||
        ticks_in(blocks_.back()) > std::numeric_limits<std::uint16_t>::max()) {
        blocks_.emplace_back();
        blocks_.back().base_s = sample.time_s;
    }
    auto& block = blocks_.back();
    const auto value = static_cast<float>(sample.pressure_cmH2O);
    block.ticks[block.count] = static_cast<std::uint16_t>(ticks_in(block));
    block.pressure[block.count] = value;
    block.lowest = value < block.pressure[block.lowest] ? block.count : block.lowest;
    block.highest = value > block.pressure[block.highest] ? block.count : block.highest;
    ++block.count;
}

void TraceHistory::append(std::span<const LiveSample> samples)
{
    for (const auto& sample : samples) {
        if (empty()) {
            first_s_ = sample.time_s;
        } else if (sample.time_s - last_s_ > gap_s_) {
            gaps_.push_back({last_s_, sample.time_s});
            if (gaps_.size() > kMostGaps) {
                gaps_.pop_front();
            }
        }
        add(sample);
        last_s_ = sample.time_s;
        ++size_;
    }
}

void TraceHistory::clear()
{
    blocks_.clear();
    gaps_.clear();
    size_ = 0;
    first_s_ = last_s_ = 0.0;
}

void TraceHistory::step(Place& place) const
{
    if (++place.sample >= blocks_[place.block].count) {
        place = {place.block + 1, 0};
    }
}

TraceHistory::Place TraceHistory::not_before(double time_s) const
{
    // The last block that begins before the moment may still hold it.
    auto block =
        std::partition_point(blocks_.begin(), blocks_.end(), [&](const Block& one) { return one.base_s < time_s; });
    if (block != blocks_.begin()) {
        --block;
    }
    Place place{static_cast<std::size_t>(block - blocks_.begin()), 0};
    while (!over(place) && at(place).time_s < time_s) {
        step(place);
    }
    return place;
}

/// Lowest and highest from `place` on to `end_s`; `place` moves on to what comes after.
std::optional<std::pair<LiveSample, LiveSample>> TraceHistory::extremes(Place& place, double end_s,
                                                                        bool inclusive) const
{
    std::optional<std::pair<LiveSample, LiveSample>> found;
    const auto inside = [&](double time_s) { return inclusive ? time_s <= end_s : time_s < end_s; };
    const auto take = [&](const LiveSample& low, const LiveSample& high) {
        if (!found) {
            found.emplace(low, high);
        }
        found->first = low.pressure_cmH2O < found->first.pressure_cmH2O ? low : found->first;
        found->second = high.pressure_cmH2O > found->second.pressure_cmH2O ? high : found->second;
    };
    while (!over(place)) {
        const auto& block = blocks_[place.block];
        if (place.sample == 0 && inside(at({place.block, block.count - 1U}).time_s)) {
            take(at({place.block, block.lowest}), at({place.block, block.highest}));
            place = {place.block + 1, 0};
            continue;
        }
        const auto sample = at(place);
        if (!inside(sample.time_s)) {
            break;
        }
        take(sample, sample);
        step(place);
    }
    return found;
}

std::vector<LiveSample> TraceHistory::thinned(double from_s, double to_s, int columns) const
{
    std::vector<LiveSample> kept;
    if (columns < 1 || !(to_s > from_s)) {
        return kept;
    }
    auto place = not_before(from_s);
    if (over(place) || at(place).time_s > to_s) {
        return kept;
    }
    kept.reserve(2 * static_cast<std::size_t>(columns) + 2);
    kept.push_back(at(place));
    const double width_s = (to_s - from_s) / columns;
    for (int column = 1; column <= columns && !over(place); ++column) {
        const bool last = column == columns;
        if (const auto two = extremes(place, last ? to_s : from_s + column * width_s, last)) {
            const bool low_first = two->first.time_s < two->second.time_s;
            add_if_later(kept, low_first ? two->first : two->second);
            add_if_later(kept, low_first ? two->second : two->first);
        }
    }
    // What stands right before `place` is the last sample of the interval.
    const auto block = place.sample > 0 ? place.block : place.block - 1;
    const auto sample = place.sample > 0 ? place.sample - 1 : blocks_[block].count - 1U;
    add_if_later(kept, at({block, sample}));
    return kept;
}

std::optional<LiveSample> TraceHistory::nearest(double time_s) const
{
    if (empty()) {
        return std::nullopt;
    }
    const auto after = not_before(time_s);
    if (over(after)) {
        return at({blocks_.size() - 1, blocks_.back().count - 1U});
    }
    if (after.block == 0 && after.sample == 0) {
        return at(after);
    }
    const Place before = after.sample > 0 ? Place{after.block, after.sample - 1}
                                          : Place{after.block - 1, blocks_[after.block - 1].count - 1U};
    return time_s - at(before).time_s < at(after).time_s - time_s ? at(before) : at(after);
}

std::vector<LiveSample> TraceHistory::between(double from_s, double to_s) const
{
    std::vector<LiveSample> samples;
    for (auto place = not_before(from_s); !over(place) && at(place).time_s <= to_s; step(place)) {
        samples.push_back(at(place));
    }
    return samples;
}

} // namespace zeroline::session
