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

/// What docs/accuracy.md says of a row: root mean squares.
struct Published {
    double plateau_cmH2O = 0.0;
    double residual_cmH2O = 0.0;
    double duration_ms = 0.0;
    double mid_duration_ms = 0.0;
    double transition_percent = 0.0;
};

/// One row of the accuracy table: cases with random parameters at one sampling rate, all with noise of 0.1 cmH2O.
struct Row {
    std::string name;
    double rate_hz = 100.0;
    bool main = false; ///< 10-90 % of 80-150 ms, 40-70 cmH2O, no trouble
    std::function<Case(std::mt19937_64&)> draw;
    Published published;
};

/// In the order of accuracy_rows().
[[nodiscard]] const std::vector<Published>& published_rows();

[[nodiscard]] std::vector<Row> accuracy_rows();

/// Root mean square and largest error of one measurand over all draws.
struct Errors {
    double sum_of_squares = 0.0;
    double largest = 0.0;
    double sum = 0.0;
    long count = 0;
    void add(double error);
    void add(const Errors& others);
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

/// One trace of a row, beside the truth and what was measured.
struct Draw {
    int set = 0;
    int draw = 0;
    const Case& drawn;
    const CleanPressure& pressure;
    const Trace& trace;
    const std::vector<Truth>& truth;
    const std::vector<Phase>& phases;
    const Comparison& alone; ///< the errors of this trace alone
};
using Watch = std::function<void(const Draw&)>;

/// `sets` parameter sets, `draws` traces each with random sampling phase, noise and spikes, compared with the truth.
/// `watch` is shown every trace.
[[nodiscard]] Comparison compare(const Row& row, int sets, int draws, std::uint64_t seed, const Watch& watch = {});

/// What is grossly wrong in one trace - other phases, a level off by more than 0.3 cmH2O, a duration by more than
/// 10 ms, a return to zero by more than its allowance - in words; empty where nothing is.
[[nodiscard]] std::string gross_errors(const Comparison& alone);

/// What a row must keep. `spread` > 0: so many standard deviations of the statistical spread of a few draws are granted
/// on every root mean square.
struct Verdict {
    std::vector<std::string> broken; ///< what and by how much
};
[[nodiscard]] Verdict judged(const Row& row, const Comparison& all, double spread);

} // namespace zeroline::signal::analytic
