#pragma once

#include "tests/analysis/signal/analytic.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace zeroline::signal::analytic {

/// One row of the accuracy table: a clean pressure, a rate, what troubles it, and the untroubled twin that the plain
/// definition is tried on.
struct Case {
    std::string name;
    CycleForm form;
    CycleForm twin;
    double rate_hz = 100.0;
    Trouble trouble;
};

/// Root mean square and largest error of one measurand over all draws.
struct Errors {
    double sum_of_squares = 0.0;
    double largest = 0.0;
    double sum = 0.0;
    long count = 0;
    void add(double error);
    [[nodiscard]] double rms() const;
    [[nodiscard]] double mean() const;
};

struct Comparison {
    Errors plateau, residual, insufflation, exsufflation, pause, mid_duration, transition_share, entry;
    Errors plain_plateau, plain_residual, plain_insufflation, plain_exsufflation, plain_pause, plain_mid_duration,
        plain_transition_share;
    Errors worst_onset; ///< onsets one by one
    Errors plain_onset;
    long draws = 0;
    long wrong_phases = 0;        ///< draws in which other phases came back than are there
    double entry_allowance = 0.0; ///< max(2 samples, 3 x noise / slope at the band)
};

/// Draws `draws` traces with random sampling phase, noise and spikes and compares with the truth.
[[nodiscard]] Comparison compare(const Case& one, int draws, std::uint64_t seed);

} // namespace zeroline::signal::analytic
