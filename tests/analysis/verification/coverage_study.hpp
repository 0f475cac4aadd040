#pragma once

// How often the stated intervals of whole budgets cover the truth. Random traces from the analytic generator, read by
// a transducer whose errors are drawn from the distributions that its file and its zero readings state; truth is the
// definition applied to the clean pressure (docs/uncertainty.md).

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace zeroline::verification {

/// One quantity over all traces.
struct Coverage {
    int traces = 0;
    int covered = 0;
    std::vector<double> errors;        ///< value - truth
    std::vector<double> uncertainties; ///< expanded

    [[nodiscard]] double share() const; ///< covered / traces
    [[nodiscard]] double rms_error() const;
    [[nodiscard]] double median_uncertainty() const;
    /// Median U over twice the rms error: 1 is as large as needed.
    [[nodiscard]] double size() const;
};

using CoverageTable = std::map<std::string, Coverage>; ///< by quantity

struct CoverageStudy {
    int traces = 400;
    std::uint64_t first_seed = 1; ///< trace i has seed first_seed + i
    double rate_hz = 0.0;         ///< 0: drawn among 100, 250 and 1000 Hz
    bool oscillation = false;     ///< prescribed and there
    std::string shape;            ///< of the edges, as the analytic generator names them; empty: drawn
    double slowest_edge_s = 0.25; ///< 10-90 %, drawn from 0.05 s on
};

[[nodiscard]] CoverageTable cover(const CoverageStudy& study);

} // namespace zeroline::verification
