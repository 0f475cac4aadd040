#include "analysis/signal/thinning.hpp"

#include "analysis/signal/shape.hpp"
#include "analysis/signal/spikes.hpp"

#include <algorithm>
#include <cmath>

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
    const auto& pressure = samples.pressure_cmH2O;
    const std::size_t count = samples.size();
    const double floor = spike_floor(sample_noise(samples), 0.0);
    OwnedSamples clean{{samples.time_s.begin(), samples.time_s.end()}, {pressure.begin(), pressure.end()}};
    std::size_t kept = 0;
    std::size_t step = 1; // the next sample that lies farther from the one before it than that
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t first = i > kSpikeReach ? i - kSpikeReach : 0;
        const std::size_t last = std::min(count, i + kSpikeReach + 1);
        while (step < count && (step <= first || !(std::abs(pressure[step] - pressure[step - 1]) > floor))) {
            ++step;
        }
        // No spike is near where no two neighbours lie apart.
        if (step < last && is_spike(pressure.subspan(first, last - first), i - first, floor)) {
            continue;
        }
        clean.time_s[kept] = samples.time_s[i];
        clean.pressure_cmH2O[kept] = pressure[i];
        ++kept;
    }
    clean.time_s.resize(kept);
    clean.pressure_cmH2O.resize(kept);
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
