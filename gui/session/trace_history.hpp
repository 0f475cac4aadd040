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

/// Everything that came in so far, for the eye: 8 bytes a sample, and what a pixel column needs without looking at
/// every sample behind it.
///
/// Samples are kept in blocks that know their lowest and highest one: a view costs as much as it is wide, whatever
/// stands behind it. Pressures are kept to a relative 6e-8 (a float): to be looked at, never to be measured. One
/// thread.
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
        std::array<float, kBlock> offset_s{};
        std::array<float, kBlock> pressure{};
        std::uint8_t count = 0, lowest = 0, highest = 0;

        [[nodiscard]] LiveSample at(std::size_t i) const
        {
            return {base_s + static_cast<double>(offset_s[i]), static_cast<double>(pressure[i])};
        }
        void add(const LiveSample& sample);
    };
    struct Place {
        std::size_t block = 0, sample = 0;
    };

    [[nodiscard]] LiveSample at(Place place) const { return blocks_[place.block].at(place.sample); }
    [[nodiscard]] bool over(Place place) const { return place.block >= blocks_.size(); }
    void step(Place& place) const;
    [[nodiscard]] Place not_before(double time_s) const;
    [[nodiscard]] std::optional<std::pair<LiveSample, LiveSample>> extremes(Place& place, double end_s,
                                                                            bool inclusive) const;

    double gap_s_;
    std::size_t size_ = 0;
    double first_s_ = 0.0, last_s_ = 0.0;
    std::deque<Block> blocks_;
    std::deque<Stretch> gaps_;
};

} // namespace zeroline::session
