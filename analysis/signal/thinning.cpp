#include "analysis/signal/thinning.hpp"

#include "analysis/signal/shape.hpp"
#include "analysis/signal/spikes.hpp"
#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::signal {

OwnedSamples thinned_to(Samples samples, std::size_t most)
{
    OwnedSamples thinned;
    const std::size_t group = (samples.size() + most - 1) / std::max<std::size_t>(most, 1);
    thinned.time_s.reserve(std::min(most, samples.size()));
    thinned.pressure_cmH2O.reserve(std::min(most, samples.size()));
    for (std::size_t first = 0; group > 0 && first < samples.size(); first += group) {
        const std::size_t last = std::min(samples.size(), first + group);
        const Samples own = samples.part(first, last);
        thinned.time_s.push_back((own.time_s.front() + own.time_s.back()) / 2.0);
        thinned.pressure_cmH2O.push_back(sum(own.pressure_cmH2O) / static_cast<double>(own.size()));
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
