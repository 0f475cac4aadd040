#pragma once

#include "analysis/verification/measured_trace.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace zeroline::verification {

/// What the readings themselves say about the sensor, before anything is measured.

/// Looks through the readings once; both spans equally long.
[[nodiscard]] Readings readings_of(signal::Samples samples, double interval_s);

/// A hole between two samples.
struct Hole {
    double from_s = 0.0, to_s = 0.0; ///< the samples about it
    std::int64_t lost = 0;           ///< readings counted but not received; 0: no counter
    bool matters = false;            ///< above three intervals, or within a transition
};

[[nodiscard]] std::vector<Hole> holes(const MeasuredTrace& measured_trace);

[[nodiscard]] double median_interval_s(const MeasuredTrace& measured_trace);

/// Smallest step of the readings in cmH2O; 0: not known.
[[nodiscard]] double resolution_cmH2O(const MeasuredTrace& measured_trace);

/// Whether repeated identical readings mean anything: the open-port noise exceeds half a step, so that a live sensor
/// changes its last digit all the time.
[[nodiscard]] bool noise_shows(const MeasuredTrace& measured_trace);

/// Runs at the lowest or highest reading of the trace, where that end repeats or is the sensor's own limit.
[[nodiscard]] std::vector<ConstantRun> clipped_runs(const MeasuredTrace& measured_trace);

/// Runs during which a transition was due, or of more than 1 s while the noise shows; clipped ones are left out.
[[nodiscard]] std::vector<ConstantRun> stuck_runs(const MeasuredTrace& measured_trace);

/// The sensor reads nothing below about zero: in place of each exsufflation stands its flat lower end.
struct LowerEnd {
    bool seen = false;
    double value_cmH2O = 0.0;
    std::vector<double> times_s;
};
[[nodiscard]] LowerEnd lower_end(const MeasuredTrace& measured_trace);

} // namespace zeroline::verification
