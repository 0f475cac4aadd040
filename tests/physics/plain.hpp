#pragma once

#include "analysis/verification/assessment.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

// The yardstick: the definitions of docs/method.md and nothing else. Every crossing lies on the straight line between
// two neighbouring samples, every level is the time-weighted mean of its window. It is written from that page alone, by
// somebody who has not read how the product measures.
namespace zeroline::physics_study {

/// A pressure against time, noisy samples or a clean dense one; same length, times increasing.
struct Series {
    std::span<const double> time_s;
    std::span<const double> pressure_cmH2O;
};

/// A phase, roughly: what its bounds are is what is to be found.
struct Dwell {
    bool pause = false;
    double from_s = 0.0, to_s = 0.0;
};

/// One phase by the definitions. None where the neighbour on that side is not in the list or the step was not seen.
struct Measured {
    double level_cmH2O = 0.0; ///< plateau (50 to 90 %), pause: its last quarter
    std::optional<double> onset_in_s, onset_out_s, mid_in_s, mid_out_s;
    std::optional<double> time_10_90_s; ///< of the edge that enters

    [[nodiscard]] std::optional<double> duration_s() const;
    [[nodiscard]] std::optional<double> mid_level_duration_s() const;
};

/// Where the dwells that are handed in end.
enum class Bounds {
    middles, ///< at the middles of the edges, as the product's recognition has them
    rough,   ///< somewhere about the edges
};

/// The phases of a series, in order: middles of the edges bound provisional phases, their levels give onsets, these the
/// final levels, these the final onsets; more passes for a pause that has not come to rest by then.
[[nodiscard]] std::vector<Measured> by_definition(Series series, std::vector<Dwell> dwells, Bounds bounds);

/// One value of a record's measurand by the definitions; none where it has none. Name as in Cycle::quantities.
struct Value {
    int cycle = 0;
    std::string measurand;
    double value = 0.0;
};

/// The plain values of every cycle's phases, as the product recognised them, on the samples it was given.
[[nodiscard]] std::vector<Value> plain_values(const verification::Assessment& assessment, const trace::Trace& trace);

/// Names the values of one insufflation, exsufflation or pause.
void name_values(std::vector<Value>& values, int cycle, signal::PhaseKind kind, const Measured& measured);

} // namespace zeroline::physics_study
