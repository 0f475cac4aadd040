#include "analysis/signal/return_to_band.hpp"

#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kLocal_s = 0.02;
constexpr std::size_t kLocalSamples = 5;
constexpr double kExit_s = 0.02;
constexpr double kFoot = 0.6; // of the next edge's 10-90 % time: by so much the pressure may leave before the onset

// How far outside the band (positive) or inside (negative), on local straight lines; on parabolas where the pressure
// bends by more than noise does.
class Excess {
public:
    Excess(Samples samples, SampleWindow pause, Band band, double noise_cmH2O)
        : samples_(samples), pause_(pause), band_(band), noise_cmH2O_(noise_cmH2O)
    {
    }

    [[nodiscard]] double at(std::size_t i) const
    {
        return std::abs(level(i) - band_.centre_cmH2O) - band_.half_width_cmH2O;
    }

    [[nodiscard]] double raw(std::size_t i) const
    {
        return std::abs(samples_.pressure_cmH2O[i] - band_.centre_cmH2O) - band_.half_width_cmH2O;
    }

    [[nodiscard]] std::pair<std::size_t, std::size_t> neighbourhood(std::size_t i, double width_s = kLocal_s) const
    {
        std::size_t first = i;
        std::size_t last = i + 1;
        const auto wide_enough = [&] {
            return last - first >= kLocalSamples &&
                   samples_.time_s[last - 1] - samples_.time_s[first] >= width_s - 1e-9;
        };
        while (!wide_enough()) {
            const bool can_back = first > pause_.first;
            const bool can_on = last < pause_.last;
            if (!can_back && !can_on) {
                break;
            }
            first -= can_back ? 1 : 0;
            last += can_on ? 1 : 0;
        }
        return {first, last};
    }

    [[nodiscard]] double time(std::size_t i) const { return samples_.time_s[i]; }
    /// By so much no noise makes a sample lie on the other side of the band's edge.
    [[nodiscard]] double clear() const { return 5.0 * noise_cmH2O_; }
    [[nodiscard]] SampleWindow pause() const { return pause_; }

private:
    // Five samples of 100 Hz make a straight line cut the peak of a fast ring by a sixth. Where nothing bends the
    // parabola would only be noisier: at its middle it differs from the line by 1.12 / sqrt(n) of the noise.
    [[nodiscard]] double level(std::size_t i) const
    {
        constexpr double kBends = 3.0 * 1.12;
        const auto [first, last] = neighbourhood(i);
        const Samples local = samples_.part(first, last);
        const auto line = fit_line(local.time_s, local.pressure_cmH2O);
        if (!line) {
            return samples_.pressure_cmH2O[i];
        }
        const double straight = line->at(samples_.time_s[i]);
        const auto parabola =
            local.size() < kLocalSamples ? std::nullopt : fit_polynomial(local.time_s, local.pressure_cmH2O, 2);
        const double bent = parabola ? parabola->at(samples_.time_s[i]) : straight;
        const double by_noise = kBends * noise_cmH2O_ / std::sqrt(static_cast<double>(local.size()));
        return std::abs(bent - straight) > by_noise ? bent : straight;
    }

    Samples samples_;
    SampleWindow pause_;
    Band band_;
    double noise_cmH2O_;
};

// A stay outside a band: samples [first, last).
struct Excursion {
    std::size_t first = 0;
    std::size_t last = 0;
    double furthest = 0.0;
};

// Where the local level crosses a limit between samples `after - 1` and `after`: straight lines join them.
double crossing_s(const Excess& excess, std::size_t after, double limit)
{
    const double from = excess.at(after - 1) - limit;
    const double to = excess.at(after) - limit;
    const double share = from * to < 0.0 ? from / (from - to) : 0.5;
    return excess.time(after - 1) + share * (excess.time(after) - excess.time(after - 1));
}

// How long it lasts: from where the level crosses the limit to where it crosses it again.
double lasts_s(const Excess& excess, const Excursion& excursion, double limit)
{
    const double begin_s = excursion.first > excess.pause().first ? crossing_s(excess, excursion.first, limit)
                                                                  : excess.time(excursion.first);
    const double end_s = excursion.last < excess.pause().last ? crossing_s(excess, excursion.last, limit)
                                                              : excess.time(excursion.last - 1);
    return end_s - begin_s;
}

// Every stay of the local level above `limit`, scanning the raw samples and looking closely only where they come near.
std::vector<Excursion> excursions(const Excess& excess, double limit, double margin)
{
    std::vector<Excursion> found;
    const SampleWindow pause = excess.pause();
    bool outside = false;
    for (std::size_t i = pause.first; i < pause.last; ++i) {
        const bool near = std::abs(excess.raw(i) - limit) <= margin;
        const double value = near ? excess.at(i) : excess.raw(i);
        if (value > limit) {
            if (!outside) {
                found.push_back({i, i, value});
            }
            found.back().last = i + 1;
            found.back().furthest = std::max(found.back().furthest, value);
        }
        outside = value > limit;
    }
    return found;
}

// A fast edge bends within 20 ms: its crossing is read where the pressure moves by half the band's half-width.
double refined_entry(const Excess& excess, Samples samples, std::size_t inside, Band band, double entry_s, double slope)
{
    constexpr double kShareOfBand = 0.5;
    const double width_s = kShareOfBand * band.half_width_cmH2O / std::abs(slope);
    if (width_s >= kLocal_s) {
        return entry_s;
    }
    const auto [first, end] = excess.neighbourhood(inside, width_s);
    const Samples local = samples.part(first, end);
    const auto line = fit_line(local.time_s, local.pressure_cmH2O);
    if (!line || line->slope * slope <= 0.0) {
        return entry_s;
    }
    const double edge = band.centre_cmH2O - std::copysign(band.half_width_cmH2O, slope);
    const double crossing_s = (edge - line->intercept) / line->slope;
    if (std::abs(crossing_s - entry_s) > kLocal_s) {
        return entry_s;
    }
    // Where two neighbours lie clearly on both sides (across a sample taken out as a spike, say), between them.
    const bool straddled = excess.raw(inside - 1) > excess.clear() && excess.raw(inside) < -excess.clear();
    return straddled ? std::clamp(crossing_s, excess.time(inside - 1), excess.time(inside)) : crossing_s;
}

} // namespace

ReturnToBand return_to_band(Samples samples, Interval pause, Band band, double next_edge_s, double noise_cmH2O)
{
    ReturnToBand result;
    const SampleWindow window = samples_between(samples, pause.from_s, pause.to_s);
    if (window.size() < 2) {
        return result;
    }
    const Excess excess(samples, window, band, noise_cmH2O);
    const double margin = std::max(5.0 * noise_cmH2O, 0.25 * band.half_width_cmH2O);
    const std::vector<Excursion> outside = excursions(excess, 0.0, margin);
    const double foot_s = pause.to_s - std::max(kExit_s, kFoot * next_edge_s);
    const Excursion* last = nullptr;
    for (const Excursion& excursion : outside) {
        const bool from_the_edge = excursion.first == window.first;
        const bool lasts = lasts_s(excess, excursion, 0.0) > kExit_s;
        const bool into_next = excursion.last == window.last && excess.time(excursion.first) > foot_s;
        if (from_the_edge || (lasts && !into_next && excursion.furthest > band.level_u_cmH2O)) {
            last = &excursion;
        }
    }
    if (last != nullptr && last->last == window.last) {
        return result;
    }
    result.returned = true;
    if (last == nullptr) {
        result.entry.time_s = pause.from_s;
        result.next_entry_s = pause.from_s;
        return result;
    }
    result.entry.time_s = crossing_s(excess, last->last, 0.0);
    const auto [first, end] = excess.neighbourhood(last->last);
    const Samples local = samples.part(first, end);
    if (const auto line = fit_line(local.time_s, local.pressure_cmH2O); line && line->slope != 0.0) {
        const double noise = std::max(noise_cmH2O, line->residual_deviation);
        result.slope_cmH2O_per_s = line->slope;
        result.entry.time_s = refined_entry(excess, samples, last->last, band, result.entry.time_s, line->slope);
        result.entry.noise_u_s = noise / std::sqrt(static_cast<double>(local.size())) / std::abs(line->slope);
        result.entry.sampling_u_s = (samples.time_s[last->last] - samples.time_s[last->last - 1]) / std::sqrt(12.0);
    }
    result.next_entry_s = result.entry.time_s;
    if (band.level_u_cmH2O > 0.0) {
        const std::vector<Excursion> close = excursions(excess, -band.level_u_cmH2O, margin + band.level_u_cmH2O);
        for (const Excursion& excursion : close) {
            if (excursion.first > last->last && excursion.last < window.last) {
                result.next_entry_s = excess.time(excursion.last);
            }
        }
    }
    return result;
}

} // namespace zeroline::signal
