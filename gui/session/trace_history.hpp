#pragma once

#include "gui/session/live_feed.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <optional>
#include <span>
#include <vector>

namespace zeroline::session {

/// An interval of the trace, in seconds on its own axis.
struct Stretch {
    double from_s = 0.0;
    double to_s = 0.0;
};

/// Everything that came in so far, for the eye: 6 bytes a sample, and what a pixel column needs without looking at
/// every sample behind it.
///
/// Samples are kept in blocks that know their lowest and highest one: a view costs as much as it is wide, whatever
/// stands behind it. Pressures are kept to a relative 6e-8 (a float), times to 1/512 of a nominal interval (61
/// microseconds where none is known): to be looked at, never to be measured. One thread.
class TraceHistory {
public:
    /// `nominal_hz`: missing time above three intervals is a gap; 0: none is looked for.
    explicit TraceHistory(double nominal_hz = 0.0);

    /// Time strictly increasing, also from one call to the next.
    void append(std::span<const LiveSample> samples);
    void clear();

    [[nodiscard]] bool empty() const noexcept { return size_ == 0; }
    [[nodiscard]] std::size_t size() const noexcept { return size_; }
    [[nodiscard]] double first_s() const noexcept { return first_s_; } ///< 0 while empty
    [[nodiscard]] double last_s() const noexcept { return last_s_; }   ///< 0 while empty
    [[nodiscard]] double tick_s() const noexcept { return tick_s_; }   ///< times are kept to half of it

    /// Fewer samples that draw the same picture: the lowest and the highest of each pixel column, in time order, and
    /// the first and the last of all. At most 2 * columns + 2; a single spike stays. Columns below 1 or an empty
    /// interval: nothing.
    [[nodiscard]] std::vector<LiveSample> thinned(double from_s, double to_s, int columns) const;
    /// The sample nearest in time.
    [[nodiscard]] std::optional<LiveSample> nearest(double time_s) const;
    /// Every sample of an interval, both ends included.
    [[nodiscard]] std::vector<LiveSample> between(double from_s, double to_s) const;

    /// Missing time, in order; never more than the last thousand.
    [[nodiscard]] const std::deque<Stretch>& gaps() const noexcept { return gaps_; }

private:
    static constexpr std::size_t kBlock = 64;
    struct Block {
        double base_s = 0.0;
        std::array<std::uint16_t, kBlock> ticks{}; ///< since `base_s`
        std::array<float, kBlock> pressure{};
        std::uint8_t count = 0, lowest = 0, highest = 0;
    };
    struct Place {
        std::size_t block = 0, sample = 0;
    };

    void add(const LiveSample& sample);
    [[nodiscard]] LiveSample at(Place place) const
    {
        const auto& block = blocks_[place.block];
        return {block.base_s + tick_s_ * block.ticks[place.sample], static_cast<double>(block.pressure[place.sample])};
    }
    [[nodiscard]] bool over(Place place) const { return place.block >= blocks_.size(); }
    void step(Place& place) const;
    [[nodiscard]] Place not_before(double time_s) const;
    [[nodiscard]] std::optional<std::pair<LiveSample, LiveSample>> extremes(Place& place, double end_s,
                                                                            bool inclusive) const;

    double gap_s_;
    double tick_s_;
    std::size_t size_ = 0;
    double first_s_ = 0.0, last_s_ = 0.0;
    std::deque<Block> blocks_;
    std::deque<Stretch> gaps_;
};

} // namespace zeroline::session
