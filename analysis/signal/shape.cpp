#include "analysis/signal/shape.hpp"

#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace zeroline::signal {

double sample_noise(Samples samples)
{
    constexpr std::size_t kProbes = 4000;
    const std::size_t count = samples.size();
    if (count < 5) {
        return 0.0;
    }
    const std::size_t stride = std::max<std::size_t>(1, (count - 2) / kProbes);
    std::vector<double> bends;
    bends.reserve(kProbes + 2);
    for (std::size_t i = 1; i + 1 < count; i += stride) {
        const auto& p = samples.pressure_cmH2O;
        bends.push_back(std::abs(p[i - 1] - 2.0 * p[i] + p[i + 1]));
    }
    // The second difference of white noise has six times its variance; half of a normal's magnitudes lie below 0.6745.
    return median(std::move(bends)).value_or(0.0) / (0.6745 * std::sqrt(6.0));
}

} // namespace zeroline::signal
