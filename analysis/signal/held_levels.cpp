#include "analysis/signal/held_levels.hpp"

#include "analysis/signal/recognition.hpp"
#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kOfPlateau = 0.2;    // a rest lies within the threshold of the prescribed pause level ...
constexpr double kRestAbsolute = 5.5; // ... or is a residual of a size that occurs ...
constexpr double kRestAtMost = 0.75;  // ... but no plateau

// One median of three a step: spikes are gone, edges stay.
struct Thinned {
    std::vector<double> time_s;
    std::vector<double> pressure;
};

Thinned thin_out(Samples samples)
{
    Thinned thinned;
    const std::size_t count = samples.size();
    if (count < 3) {
        return thinned;
    }
    const auto& time = samples.time_s;
    for (std::size_t i = 1; i + 1 < count;) {
        thinned.time_s.push_back(time[i]);
        thinned.pressure.push_back(
            median_of_three(samples.pressure_cmH2O[i - 1], samples.pressure_cmH2O[i], samples.pressure_cmH2O[i + 1]));
        // The nearest to a step later, looked for twice as far each time: times may be unequal.
        const double next_s = time[i] + kProbe_s - (time[i + 1] - time[i]) / 2.0;
        std::size_t reach = 1;
        while (i + reach < count - 1 && time[i + reach] < next_s) {
            reach *= 2;
        }
        const auto from = time.begin() + static_cast<std::ptrdiff_t>(i + (reach + 1) / 2);
        const auto to = time.begin() + static_cast<std::ptrdiff_t>(std::min(i + reach, count - 1));
        i = static_cast<std::size_t>(std::lower_bound(from, to, next_s) - time.begin());
    }
    return thinned;
}

// The highest level that is held for a dwell: largest of the smallest values of all windows of 0.2 s.
double highest_held(const Thinned& thinned, double sign)
{
    double highest = 0.0;
    std::size_t above = 0; // all samples from here on lie higher than what has been held so far
    for (std::size_t i = 0; i < thinned.time_s.size(); ++i) {
        if (sign * thinned.pressure[i] <= highest) {
            above = i + 1;
            continue;
        }
        const double from_s = thinned.time_s[i] - Recognizer::kDwell_s;
        if (above > 0 && thinned.time_s[above - 1] >= from_s - kProbe_s / 2) {
            continue;
        }
        if (above == 0 && thinned.time_s[i] - thinned.time_s.front() < Recognizer::kDwell_s - kProbe_s / 2) {
            continue;
        }
        double smallest = sign * thinned.pressure[i];
        for (std::size_t k = i; k > above && thinned.time_s[k - 1] >= from_s - kProbe_s / 2; --k) {
            smallest = std::min(smallest, sign * thinned.pressure[k - 1]);
        }
        highest = std::max(highest, smallest);
    }
    return highest;
}

// Thinned-out samples that dwell: over 0.1 s they move by less than a twentieth of the larger plateau.
std::vector<double> dwelling(const Thinned& thinned, double larger, double noise)
{
    const double still = std::max(0.05 * larger, 4.0 * noise);
    std::vector<double> values;
    values.reserve(thinned.pressure.size());
    constexpr std::size_t kSamplesBefore = 5;
    for (std::size_t i = kSamplesBefore; i < thinned.pressure.size(); ++i) {
        double low = thinned.pressure[i];
        double high = low;
        for (std::size_t k = i - kSamplesBefore; k < i; ++k) {
            low = std::min(low, thinned.pressure[k]);
            high = std::max(high, thinned.pressure[k]);
        }
        if (high - low <= still) {
            values.push_back(thinned.pressure[i]);
        }
    }
    return values;
}

// The dwell nearest to the prescribed level, if it can be a rest: its neighbourhood's median.
double rest_level(std::vector<double> values, double prescribed, double larger, double smaller_gap)
{
    const double reach = std::max(kOfPlateau * larger, std::min(kRestAbsolute, kRestAtMost * larger));
    const auto distance = [prescribed](double value) { return std::abs(value - prescribed); };
    std::erase_if(values, [&](double value) { return distance(value) > reach; });
    if (values.size() < 5) {
        return prescribed;
    }
    // A few samples on their way do not make a rest: the fifth nearest begins it.
    std::nth_element(values.begin(), values.begin() + 4, values.end(),
                     [&](double a, double b) { return distance(a) < distance(b); });
    const double near = values[4];
    std::erase_if(values, [&](double value) { return std::abs(value - near) > smaller_gap; });
    return median(values).value_or(prescribed);
}

} // namespace

double median_of_three(double a, double b, double c) noexcept
{
    return std::max(std::min(a, b), std::min(std::max(a, b), c));
}

double phase_threshold(double noise_cmH2O, double larger_plateau_cmH2O) noexcept
{
    const double by_noise = 10.0 * noise_cmH2O;
    const double by_plateau = kOfPlateau * larger_plateau_cmH2O;
    const bool clear_of_noise = larger_plateau_cmH2O > 4.0 * noise_cmH2O;
    return std::max(by_plateau, clear_of_noise ? std::min(by_noise, 0.4 * larger_plateau_cmH2O) : by_noise);
}

HeldLevels held_levels(Samples samples, double pause_level_cmH2O, double noise_cmH2O)
{
    HeldLevels result;
    result.rest_cmH2O = pause_level_cmH2O;
    if (samples.size() < 3) {
        return result;
    }
    const Thinned thinned = thin_out(samples);
    const double highest = highest_held(thinned, 1.0);
    const double lowest = highest_held(thinned, -1.0);
    result.larger_plateau_cmH2O = std::max(highest, lowest);
    const double larger = result.larger_plateau_cmH2O;
    std::vector<double> values = dwelling(thinned, larger, noise_cmH2O);
    // The outermost dwells of both signs are phases, unless there is no other dwell.
    const double threshold = kOfPlateau * larger;
    std::vector<double> inner = values;
    std::erase_if(inner, [&](double value) {
        return (highest > threshold && value > highest - threshold) ||
               (lowest > threshold && value < -lowest + threshold);
    });
    const bool one_level_only = inner.size() < 5 && std::min(highest, lowest) <= threshold && larger <= kRestAbsolute;
    const double alike = std::max(threshold / 2, 6.0 * noise_cmH2O);
    result.rest_cmH2O = rest_level(one_level_only ? values : inner, pause_level_cmH2O, larger, alike);
    return result;
}

double larger_plateau(Samples samples)
{
    const Thinned thinned = thin_out(samples);
    return std::max(highest_held(thinned, 1.0), highest_held(thinned, -1.0));
}

} // namespace zeroline::signal
