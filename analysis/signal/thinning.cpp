#include "analysis/signal/thinning.hpp"

#include "analysis/signal/shape.hpp"
#include "analysis/signal/spikes.hpp"

#include <algorithm>

namespace zeroline::signal {

OwnedSamples thinned_to(Samples samples, std::size_t most)
{
    OwnedSamples thinned;
    const std::size_t group = (samples.size() + most - 1) / std::max<std::size_t>(most, 1);
    for (std::size_t first = 0; group > 0 && first < samples.size(); first += group) {
        const std::size_t last = std::min(samples.size(), first + group);
        double time = 0.0;
        double pressure = 0.0;
        for (std::size_t i = first; i < last; ++i) {
            time += samples.time_s[i] - samples.time_s[first];
            pressure += samples.pressure_cmH2O[i];
        }
        const auto count = static_cast<double>(last - first);
        thinned.time_s.push_back(samples.time_s[first] + time / count);
        thinned.pressure_cmH2O.push_back(pressure / count);
    }
    return thinned;
}

OwnedSamples without_spikes(Samples samples)
{
    OwnedSamples clean;
    const double floor = spike_floor(sample_noise(samples), 0.0);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const std::size_t first = i > kSpikeReach ? i - kSpikeReach : 0;
        const std::size_t last = std::min(samples.size(), i + kSpikeReach + 1);
        if (!is_spike(samples.pressure_cmH2O.subspan(first, last - first), i - first, floor)) {
            clean.time_s.push_back(samples.time_s[i]);
            clean.pressure_cmH2O.push_back(samples.pressure_cmH2O[i]);
        }
    }
    return clean;
}

double mean_interval_s(Samples samples)
{
    if (samples.size() < 2) {
        return 0.0;
    }
    return (samples.time_s.back() - samples.time_s.front()) / static_cast<double>(samples.size() - 1);
}

} // namespace zeroline::signal
