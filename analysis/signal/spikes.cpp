#include "analysis/signal/spikes.hpp"

#include "analysis/signal/shape.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <span>

namespace zeroline::signal {
namespace {

constexpr double kNoises = 8.0;           // the largest of a million normal deviates stays under 5
constexpr double kHarmlessOfPlateau = 0.02;       // below this a spike changes nothing that is judged
constexpr double kOfStepsUpAndDown = 1.5; // a sampled ring or oscillation stays under 1.3
constexpr double kOfStepsOneWay = 0.35;   // an overshoot of a quarter of an edge stays under 0.31
constexpr double kOfDistance = 0.1;       // from the neighbourhood's median: settles what stands out alike
constexpr std::size_t kFewest = 5;
constexpr std::size_t kMostAround = 4;
constexpr std::size_t kLongest = 3; // neighbours of one sign that are suspected together
constexpr std::size_t kMostTogether = 3;
constexpr std::size_t kSamplesBeside = 6; // samples on each side that are looked at
constexpr std::size_t kMost = 2 * kSamplesBeside + 1;

// The samples about one under test. Those that stand out are suspected one after the other, the farthest first, until
// all suspects stand clear of what the others do.
class Neighbourhood {
public:
    Neighbourhood(std::span<const double> pressure, double floor) : pressure_(pressure), floor_(floor)
    {
        for (std::size_t i = 0; i < pressure.size(); ++i) {
            kept_[count_++] = i;
        }
    }

    [[nodiscard]] std::size_t count() const { return count_; }
    [[nodiscard]] bool suspected(std::size_t at) const { return std::find(kept_.begin(), end(), at) == end(); }

    // False where nothing more stands out.
    bool suspect_farthest()
    {
        std::size_t best_first = 0;
        std::size_t best_length = 0;
        double farthest = 0.0;
        const double middle = middle_value();
        for (std::size_t length = 1; length <= kLongest; ++length) {
            for (std::size_t first = 1; first + length < count_; ++first) {
                const double out = lowest_out(first, length);
                // What lies between two spikes stands out from them as far as they do from it.
                const double rank = out + kOfDistance * std::abs(value(first) - middle);
                if (out > floor_ && rank > farthest) {
                    farthest = rank;
                    best_first = first;
                    best_length = length;
                }
            }
        }
        if (best_length == 0) {
            return false;
        }
        const auto gap = kept_.begin() + static_cast<std::ptrdiff_t>(best_first);
        std::copy(gap + static_cast<std::ptrdiff_t>(best_length), kept_.begin() + static_cast<std::ptrdiff_t>(count_),
                  gap);
        count_ -= best_length;
        return true;
    }

    [[nodiscard]] bool stands_out(std::size_t at) const
    {
        const auto after = std::upper_bound(kept_.begin(), end(), at);
        const double above = pressure_[at] - pressure_[*(after - 1)];
        const double beyond = pressure_[at] - pressure_[*after];
        return above * beyond > 0.0 && std::min(std::abs(above), std::abs(beyond)) > floor_;
    }

    [[nodiscard]] bool all_stand_clear() const
    {
        Steps steps = steps_of(0, count_);
        // The outermost sample may be a spike itself: nothing beyond it tells.
        steps.largest = steps_of(1, count_ - 1).largest;
        for (std::size_t k = 1; k < count_; ++k) {
            if (kept_[k] > kept_[k - 1] + 1 && !(clear_between(k, 1.0, steps) && clear_between(k, -1.0, steps))) {
                return false;
            }
        }
        return true;
    }

    // The first or last sample of a trace has a neighbour on one side only.
    [[nodiscard]] bool end_stands_out(bool front) const
    {
        const double out = front ? value(0) - value(1) : value(count_ - 1) - value(count_ - 2);
        const Steps steps = front ? steps_of(1, count_) : steps_of(0, count_ - 1);
        return std::abs(out) > std::max(floor_, kOfStepsUpAndDown * steps.largest);
    }

private:
    struct Steps {
        double largest = 0.0;
        bool one_way = true; // apart from noise
    };

    [[nodiscard]] double value(std::size_t k) const { return pressure_[kept_[k]]; }
    [[nodiscard]] std::array<std::size_t, kMost>::const_iterator end() const
    {
        return kept_.begin() + static_cast<std::ptrdiff_t>(count_);
    }

    [[nodiscard]] double middle_value() const
    {
        std::array<double, kMost> values{};
        for (std::size_t k = 0; k < count_; ++k) {
            values[k] = value(k);
        }
        const auto middle = values.begin() + static_cast<std::ptrdiff_t>(count_ / 2);
        std::nth_element(values.begin(), middle, values.begin() + static_cast<std::ptrdiff_t>(count_));
        return *middle;
    }

    [[nodiscard]] Steps steps_of(std::size_t first, std::size_t last) const
    {
        double rise = 0.0;
        double fall = 0.0;
        for (std::size_t k = first + 1; k < last; ++k) {
            rise = std::max(rise, value(k) - value(k - 1));
            fall = std::max(fall, value(k - 1) - value(k));
        }
        return {std::max(rise, fall), std::min(rise, fall) <= floor_ / 2.0};
    }

    // How far the lowest of `length` samples stands out from those beside them.
    [[nodiscard]] double lowest_out(std::size_t first, std::size_t length) const
    {
        const double before = value(first - 1);
        const double after = value(first + length);
        const double sign = value(first) > before ? 1.0 : -1.0;
        double out = std::numeric_limits<double>::infinity();
        for (std::size_t k = first; k < first + length; ++k) {
            out = std::min(out, sign * value(k) - std::max(sign * before, sign * after));
        }
        return out;
    }

    // The suspects of one sign between two samples that are kept, the second of which is number `k`.
    [[nodiscard]] bool clear_between(std::size_t k, double sign, const Steps& steps) const
    {
        if (kept_[k] - kept_[k - 1] > kMostTogether + 1) {
            return false;
        }
        const double before = sign * value(k - 1);
        const double after = sign * value(k);
        // What lies between two spikes may have been suspected with them: it does not stand out.
        double out = std::numeric_limits<double>::infinity();
        std::size_t members = 0;
        for (std::size_t i = kept_[k - 1] + 1; i < kept_[k]; ++i) {
            const double own = sign * pressure_[i] - std::max(before, after);
            if (own > floor_) {
                out = std::min(out, own);
                ++members;
            }
        }
        const bool on_an_edge = members == 1 && steps.one_way;
        return members == 0 || out > (on_an_edge ? kOfStepsOneWay : kOfStepsUpAndDown) * steps.largest;
    }

    std::span<const double> pressure_;
    double floor_;
    std::array<std::size_t, kMost> kept_{};
    std::size_t count_ = 0;
};

// Whether a sample lies off, to the same side, one before it and one behind it that may be its nearest kept ones.
bool may_stand_out(std::span<const double> pressure, std::size_t at, double floor)
{
    const double here = pressure[at];
    double below = 0.0;
    double above = 0.0;
    for (std::size_t i = at - std::min(at, kMostTogether); i < at; ++i) {
        below = std::max(below, here - pressure[i]);
        above = std::max(above, pressure[i] - here);
    }
    const bool up = below > floor;
    const bool down = above > floor;
    for (std::size_t i = at + 1; i < std::min(pressure.size(), at + kMostTogether + 1); ++i) {
        if ((up && here - pressure[i] > floor) || (down && pressure[i] - here > floor)) {
            return true;
        }
    }
    return false;
}

} // namespace

double spike_floor(double noise_cmH2O, double larger_plateau_cmH2O) noexcept
{
    return std::max(kNoises * noise_cmH2O, kHarmlessOfPlateau * larger_plateau_cmH2O);
}

namespace {

bool stands_clear(std::span<const double> pressure, std::size_t at, double floor)
{
    const bool front = at == 0;
    const bool back = at + 1 == pressure.size();
    if (!front && !back && !may_stand_out(pressure, at, floor)) {
        return false;
    }
    Neighbourhood around(pressure, floor);
    while (around.count() > kFewest && around.suspect_farthest()) {
        if (around.count() + kMostAround < pressure.size()) {
            return false;
        }
        if (around.suspected(at) && around.stands_out(at) && around.all_stand_clear()) {
            return true;
        }
    }
    return (front || back) && around.count() >= kFewest && !around.suspected(at) && around.end_stands_out(front);
}

} // namespace

ClearSamples without_spikes(Samples samples) { return {samples, spike_floor(sample_noise(samples), 0.0)}; }

ClearSamples::ClearSamples(Samples samples, double floor_cmH2O)
    : samples_(samples), blocks_(blocks_of(samples.pressure_cmH2O))
{
    for (std::size_t i = 0; i < samples.size(); ++i) {
        i = next_suspect(i, floor_cmH2O);
        if (is_spike(i, floor_cmH2O)) {
            spikes_.push_back(i);
        }
    }
    if (!spikes_.empty()) {
        take_out_spikes();
        blocks_ = blocks_of(kept_.pressure_cmH2O);
    }
}

// The next sample from `i` on that lies far from the one before it, or behind a spike. A block without a step holds
// none. The first and the last of all are looked at in any case.
std::size_t ClearSamples::next_suspect(std::size_t i, double floor_cmH2O) const
{
    const auto& pressure = samples_.pressure_cmH2O;
    for (const std::size_t last = pressure.size() - 1; i > 0 && i < last;) {
        const bool after_spike = !spikes_.empty() && spikes_.back() == i - 1;
        if (i % kBlock == 0 && !after_spike && blocks_[i / kBlock].largest_step_cmH2O <= floor_cmH2O) {
            i = std::min(last, i + kBlock);
        } else if (after_spike || std::abs(pressure[i] - pressure[i - 1]) > floor_cmH2O) {
            break;
        } else {
            ++i;
        }
    }
    return i;
}

bool ClearSamples::is_spike(std::size_t i, double floor_cmH2O) const
{
    const std::size_t first = i - std::min(i, kSamplesBeside);
    const std::size_t last = std::min(samples_.size(), i + kSamplesBeside + 1);
    return stands_clear(samples_.pressure_cmH2O.subspan(first, last - first), i - first, floor_cmH2O);
}

void ClearSamples::take_out_spikes()
{
    std::size_t first = 0;
    const auto keep_until = [&](std::size_t last) {
        const Samples part = samples_.part(first, last);
        kept_.time_s.insert(kept_.time_s.end(), part.time_s.begin(), part.time_s.end());
        kept_.pressure_cmH2O.insert(kept_.pressure_cmH2O.end(), part.pressure_cmH2O.begin(), part.pressure_cmH2O.end());
        first = last + 1;
    };
    for (const std::size_t spike : spikes_) {
        keep_until(spike);
    }
    keep_until(samples_.size());
}

std::size_t ClearSamples::number_given(std::size_t index) const
{
    for (const std::size_t spike : spikes_) {
        if (spike > index) {
            break;
        }
        ++index;
    }
    return index;
}

} // namespace zeroline::signal
