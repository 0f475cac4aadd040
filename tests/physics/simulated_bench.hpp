#pragma once

#include "analysis/verification/assessment.hpp"
#include "fixtures/physics/run.hpp"

#include <cstdint>

namespace zeroline::physics_study {

/// What stands between the sensor's electronics and the trace.
struct Readout {
    double rate_hz = 250.0;
    double noise_cmH2O = 0.05; ///< standard deviation, white
    double resolution_cmH2O = 0.01;
    double clock_ppm = 0.0; ///< true error of the instrument's clock
    double offset_cmH2O = 0.0, drift_cmH2O = 0.0, span_error = 0.0;
};

/// A whole run of a simulated unit with a complete log: open to air, plugged, cycles, open to air.
struct SimulatedBench {
    physics::Run run;
    verification::WorkOrder order;
    trace::Instrument instrument;
    trace::Trace trace;
    verification::RunLog log;
    double span_ends_s = 0.0; ///< of automatic cycling

    [[nodiscard]] verification::Evidence evidence() const;
};

struct BenchPlan {
    int cycles = 4; ///< judged; one lead cycle before them
    bool flow_named = true;
    bool reduced_flow = false;
    bool displays = false; ///< the log says what the unit displayed: the truth, rounded
};

/// Draws noise (0.03 to 0.12), resolution, clock, zero and span within what the instrument file says.
[[nodiscard]] Readout drawn_readout(double rate_hz, double largest_cmH2O, std::uint64_t seed);

/// `prescribed`: what the order asks for; the unit does what it is set to.
[[nodiscard]] SimulatedBench simulated(const physics::Unit& unit, const physics::Settings& prescribed,
                                       const Readout& readout, const BenchPlan& plan);

} // namespace zeroline::physics_study
