#include "analysis/signal/spikes.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::signal {
namespace {

constexpr double kNoises = 8.0;        // the largest of a million normal deviates stays under 5
constexpr double kOfPlateau = 0.02;    // below this a spike changes nothing that is judged
constexpr double kOfStepsAround = 1.5; // a sampled ring or oscillation stays under 1.3

// The largest step between neighbouring samples around `at`, sample `at` left out (its neighbours count as neighbours).
double largest_step_around(std::span<const double> pressure, std::size_t at)
{
    const std::size_t first = at > kSpikeReach ? at - kSpikeReach : 0;
    const std::size_t last = std::min(pressure.size(), at + kSpikeReach + 1);
    double largest = 0.0;
    double before = pressure[first == at ? at + 1 : first];
    for (std::size_t i = first; i < last; ++i) {
        if (i == at) {
            continue;
        }
        largest = std::max(largest, std::abs(pressure[i] - before));
        before = pressure[i];
    }
    return largest;
}

} // namespace

double spike_floor(double noise_cmH2O, double larger_plateau_cmH2O) noexcept
{
    return std::max(kNoises * noise_cmH2O, kOfPlateau * larger_plateau_cmH2O);
}

bool is_spike(std::span<const double> pressure, std::size_t at, double floor_cmH2O)
{
    if (pressure.size() < 4) {
        return false;
    }
    const double before = at > 0 ? pressure[at - 1] : pressure[at + 1];
    const double after = at + 1 < pressure.size() ? pressure[at + 1] : pressure[at - 1];
    const double above = pressure[at] - before;
    const double beyond = pressure[at] - after;
    const double out = std::min(std::abs(above), std::abs(beyond));
    if (above * beyond <= 0.0 || out <= floor_cmH2O) {
        return false;
    }
    return out > kOfStepsAround * largest_step_around(pressure, at);
}

} // namespace zeroline::signal
