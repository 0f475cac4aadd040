#include "analysis/signal/return_to_band.hpp"

#include "analysis/signal/crossings.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace zeroline::signal {
namespace {

constexpr std::size_t kLocalSamples = 5; // a local level is taken over 20 ms, and at least so many samples
constexpr double kFoot = 0.6;  // of the next edge's 10-90 % time: by so much the pressure may leave before the onset
constexpr double kBends = 3.0; // standard deviations of what noise makes a parabola differ from the mean

// The local levels of samples, one after the other: mean and parabola over `reach` samples on each side by running
// sums, evenly spaced as they are to all intents within 20 ms.
class LocalLevels {
public:
    LocalLevels(Samples samples, std::size_t near, double noise_cmH2O) : samples_(samples)
    {
        const std::size_t last = std::min(near + kLocalSamples, samples.size() - 1);
        const std::size_t first = last - std::min(last, kLocalSamples);
        const double interval_s = (samples.time_s[last] - samples.time_s[first]) / static_cast<double>(last - first);
        const double wanted = std::ceil(kSustained_s / interval_s / 2.0 - 1e-6);
        reach_ = std::clamp<std::size_t>(static_cast<std::size_t>(wanted), kLocalSamples / 2, samples.size() / 2);
        const auto r = static_cast<double>(reach_);
        count_ = 2.0 * r + 1.0;
        squares_ = r * (r + 1.0) * count_ / 3.0;                   // sum of j^2, j from -reach to reach
        fourths_ = squares_ * (3.0 * r * r + 3.0 * r - 1.0) / 5.0; // sum of j^4
        // The middle of the parabola differs from the mean by squares x its bend / count.
        const double own = fourths_ - squares_ * squares_ / count_;
        by_noise_ = kBends * noise_cmH2O * squares_ / count_ / std::sqrt(own);
    }

    [[nodiscard]] std::size_t reach() const noexcept { return reach_; }

    [[nodiscard]] double at(std::size_t i)
    {
        i = std::clamp(i, reach_, samples_.size() - 1 - reach_);
        if (valid_ && i == at_ + 1) {
            move_on();
        } else if (!valid_ || i != at_) {
            start_at(i);
        }
        const double mean = sum_ / count_;
        const double bend = (by_squares_ - squares_ * mean) / (fourths_ - squares_ * squares_ / count_);
        const double below = bend * squares_ / count_;
        return std::abs(below) > by_noise_ ? mean - below : mean;
    }

private:
    void start_at(std::size_t i)
    {
        sum_ = by_place_ = by_squares_ = 0.0;
        for (std::size_t k = i - reach_; k <= i + reach_; ++k) {
            const double j = static_cast<double>(k) - static_cast<double>(i);
            const double p = samples_.pressure_cmH2O[k];
            sum_ += p;
            by_place_ += j * p;
            by_squares_ += j * j * p;
        }
        at_ = i;
        valid_ = true;
    }

    // Each sample's place becomes one less; the first goes, one more comes.
    void move_on()
    {
        const auto r = static_cast<double>(reach_);
        const double gone = samples_.pressure_cmH2O[at_ - reach_];
        ++at_;
        const double come = samples_.pressure_cmH2O[at_ + reach_];
        by_squares_ += sum_ - 2.0 * by_place_ - (r + 1.0) * (r + 1.0) * gone + r * r * come;
        by_place_ += -sum_ + (r + 1.0) * gone + r * come;
        sum_ += come - gone;
    }

    Samples samples_;
    std::size_t reach_ = 2;
    std::size_t at_ = 0;
    bool valid_ = false;
    double count_ = 0.0, squares_ = 0.0, fourths_ = 0.0, by_noise_ = 0.0;
    double sum_ = 0.0, by_place_ = 0.0, by_squares_ = 0.0;
};

// A stay of the local level outside the band.
struct Excursion {
    std::size_t first = 0; ///< first sample outside
    std::size_t last = 0;  ///< first sample inside again
    double from_s = 0.0;   ///< where the local level leaves
    double to_s = 0.0;     ///< ... and comes back
    double furthest = 0.0; ///< beyond the band
};

// Follows the local level along a pause; keeps the last excursion that counts, and the last of any into U of the band.
class Follower {
public:
    Follower(Samples samples, SampleWindow pause, double foot_s, Band band)
        : samples_(samples), pause_(pause), foot_s_(foot_s), band_(band)
    {
    }

    void step(std::size_t i, double excess)
    {
        if (excess > 0.0) {
            outside(i, excess);
        } else if (now_) {
            end(i, crossing_s(i, excess, 0.0));
        }
        if (excess > -band_.level_u_cmH2O) {
            close_ = close_.value_or(Excursion{i, i, 0.0, 0.0, 0.0});
        } else if (close_) {
            close_->last = i;
            last_close_ = close_;
            close_.reset();
        }
        before_ = excess;
    }

    /// Nothing is under way: samples that lie well within the band change nothing.
    [[nodiscard]] bool settled() const noexcept { return !now_ && !close_; }
    void skip_within() noexcept { before_ = -band_.half_width_cmH2O; }

    void finish()
    {
        if (now_) {
            end(pause_.last, samples_.time_s[pause_.last - 1]);
        }
    }

    [[nodiscard]] const std::optional<Excursion>& last() const noexcept { return counted_; }
    [[nodiscard]] const std::optional<Excursion>& last_close() const noexcept { return last_close_; }

private:
    [[nodiscard]] double crossing_s(std::size_t after, double excess, double limit) const
    {
        const double share = before_ != excess ? std::clamp((limit - before_) / (excess - before_), 0.0, 1.0) : 0.5;
        return samples_.time_s[after - 1] + share * (samples_.time_s[after] - samples_.time_s[after - 1]);
    }

    void outside(std::size_t i, double excess)
    {
        if (!now_) {
            now_ = Excursion{i, i, i > pause_.first ? crossing_s(i, excess, 0.0) : samples_.time_s[i], 0.0, 0.0};
        }
        now_->furthest = std::max(now_->furthest, excess);
    }

    void end(std::size_t i, double to_s)
    {
        now_->last = i;
        now_->to_s = to_s;
        const bool from_the_edge = now_->first == pause_.first;
        const bool into_next = samples_.time_s[now_->first] > foot_s_;
        const bool lasts = now_->to_s - now_->from_s > kSustained_s;
        if (from_the_edge || (lasts && !into_next && now_->furthest > band_.level_u_cmH2O)) {
            counted_ = now_;
        }
        now_.reset();
    }

    Samples samples_;
    SampleWindow pause_;
    double foot_s_;
    Band band_;
    double before_ = 0.0;
    std::optional<Excursion> now_, close_, counted_, last_close_;
};

// Whether no sample in a block, nor any local level that reaches into it, comes near the edge of the band.
bool well_within(const Block& block, const Band& band)
{
    constexpr double kWell = 0.5; // of the half-width: more than a parabola overshoots what it is drawn through
    const double reach = kWell * band.half_width_cmH2O - band.level_u_cmH2O;
    return block.lowest_cmH2O > band.centre_cmH2O - reach && block.highest_cmH2O < band.centre_cmH2O + reach;
}

// The pressure between two samples that lie about the local level's entry, as near to it as there are such.
std::size_t sample_inside(Samples samples, const Band& band, const Excursion& excursion, std::size_t reach, double side)
{
    const auto outside = [&](std::size_t i) {
        return side * (samples.pressure_cmH2O[i] - band.centre_cmH2O) > band.half_width_cmH2O;
    };
    for (std::size_t far = 0; far <= reach; ++far) {
        for (const std::size_t i : {excursion.last - std::min(excursion.last, far), excursion.last + far}) {
            if (i > 0 && i < samples.size() && outside(i - 1) && !outside(i)) {
                return i;
            }
        }
    }
    return excursion.last;
}

} // namespace

ReturnToBand return_to_band(Samples samples, const std::vector<Block>& blocks, Interval pause, Band band,
                            double next_edge_s, double noise_cmH2O)
{
    ReturnToBand result;
    const SampleWindow window = samples_between(samples, pause.from_s, pause.to_s);
    if (window.size() < 2 || samples.size() <= kLocalSamples) {
        return result;
    }
    LocalLevels levels(samples, window.first, noise_cmH2O);
    Follower follower(samples, window, pause.to_s - std::max(kSustained_s, kFoot * next_edge_s), band);
    const auto excess = [&](double level) { return std::abs(level - band.centre_cmH2O) - band.half_width_cmH2O; };
    for (std::size_t i = window.first; i < window.last; ++i) {
        // Local levels reach into the neighbours of a block.
        const std::size_t block = i / kBlock;
        if (i % kBlock == 0 && block > 0 && block + 1 < blocks.size() && levels.reach() <= kBlock &&
            i + kBlock < window.last && follower.settled() && well_within(blocks[block - 1], band) &&
            well_within(blocks[block], band) && well_within(blocks[block + 1], band)) {
            follower.skip_within();
            i += kBlock - 1;
            continue;
        }
        follower.step(i, excess(levels.at(i)));
    }
    follower.finish();
    const auto& last = follower.last();
    if (last && last->last == window.last) {
        return result;
    }
    result.returned = true;
    result.entry.time_s = result.next_entry_s = pause.from_s;
    if (last) {
        const double side = levels.at(last->last - 1) > band.centre_cmH2O ? 1.0 : -1.0;
        const double edge = band.centre_cmH2O + side * band.half_width_cmH2O;
        // From as far outside as the band reaches inside: its edge is the middle.
        const Edge entry(samples, {2.0 * edge - band.centre_cmH2O, band.centre_cmH2O}, noise_cmH2O);
        const Crossing crossing = crossing_at(entry, sample_inside(samples, band, *last, levels.reach(), side), 0.5);
        result.entry = {crossing.time_s, crossing.noise_u_s, crossing.half_width_s * std::numbers::inv_sqrt3};
        result.slope_cmH2O_per_s = crossing.slope_per_s * entry.levels().step();
        result.next_entry_s = result.entry.time_s;
    }
    const auto& close = follower.last_close();
    if (band.level_u_cmH2O > 0.0 && close && last && close->first > last->last) {
        result.next_entry_s = samples.time_s[close->last];
    }
    return result;
}

} // namespace zeroline::signal
