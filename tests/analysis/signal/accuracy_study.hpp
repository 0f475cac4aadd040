#pragma once

#include "tests/analysis/signal/analytic.hpp"

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace zeroline::signal::analytic {

/// A clean pressure, what troubles it, and the untroubled twin that the plain definition (interpolated crossings,
/// window means) is tried on.
struct Case {
    CycleForm form;
    CycleForm twin;
    Trouble trouble;
};

/// One row of the accuracy table: cases with random parameters at one sampling rate, all with noise of 0.1 cmH2O.
struct Row {
    std::string name;
    double rate_hz = 100.0;
    bool main = false; ///< 10-90 % of 80-150 ms, 40-70 cmH2O, no trouble: bounds of its own; else against the plain one
    std::function<Case(std::mt19937_64&)> draw;
};

[[nodiscard]] std::vector<Row> accuracy_rows();

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
    Errors plateau, residual, duration, mid_duration, transition_share;
    Errors plain_plateau, plain_residual, plain_duration, plain_mid_duration;
    Errors entry_share; ///< of the return to zero: error over max(2 samples, 3 x noise / slope)
    long draws = 0;
    long wrong_phases = 0; ///< draws in which other phases came back than are there
};

/// `sets` parameter sets, `draws` traces each with random sampling phase, noise and spikes, compared with the truth.
[[nodiscard]] Comparison compare(const Row& row, int sets, int draws, std::uint64_t seed);

/// What a row must keep. `spread` > 0: so many standard deviations of the statistical spread of a few draws are granted
/// on every root mean square.
struct Verdict {
    std::vector<std::string> broken; ///< what and by how much
};
[[nodiscard]] Verdict judged(const Row& row, const Comparison& all, double spread);

} // namespace zeroline::signal::analytic
