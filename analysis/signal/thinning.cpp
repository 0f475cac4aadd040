#include "analysis/signal/thinning.hpp"

#include "analysis/signal/statistics.hpp"

#include <algorithm>

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

double mean_interval_s(Samples samples)
{
    if (samples.size() < 2) {
        return 0.0;
    }
    return (samples.time_s.back() - samples.time_s.front()) / static_cast<double>(samples.size() - 1);
}

} // namespace zeroline::signal
