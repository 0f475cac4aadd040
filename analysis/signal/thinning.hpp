#pragma once

#include "analysis/signal/phases.hpp"

#include <vector>

namespace zeroline::signal {

/// Samples that own their memory.
struct OwnedSamples {
    std::vector<double> time_s;
    std::vector<double> pressure_cmH2O;
    [[nodiscard]] Samples view() const { return {time_s, pressure_cmH2O}; }
    [[nodiscard]] std::size_t size() const noexcept { return time_s.size(); }
};

/// Means of groups of neighbouring samples, each at its middle, at most `most` groups of equal count (the last may be
/// smaller).
[[nodiscard]] OwnedSamples thinned_to(Samples samples, std::size_t most);

/// Mean interval between samples; 0 below two.
[[nodiscard]] double mean_interval_s(Samples samples);

} // namespace zeroline::signal
