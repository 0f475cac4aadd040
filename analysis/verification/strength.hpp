#pragma once

#include "analysis/verification/measured_trace.hpp"

#include <vector>

namespace zeroline::verification {

/// Air that passes a sharp-edged orifice into the room, about: Cd A sqrt(2 p / rho), the orifice equation of ISO 5167-1
/// with Cd 0.62 and air of 1.2 kg/m3, its expansion left out (at most 3 %).
[[nodiscard]] double orifice_flow_L_min(double diameter_mm, double pressure_cmH2O);

/// What is left under flow of the pressure at the closed hose end, a row a phase; none for a phase of which two cycles
/// were not seen on both occasions. The first `lead_cycles` under flow do not count. `instrument_u_cmH2O`: standard
/// uncertainty that all levels share.
[[nodiscard]] std::vector<Strength> strength_in(const MeasuredTrace& measured_trace, const MeasuredSpan& under_flow,
                                                double instrument_u_cmH2O);

} // namespace zeroline::verification
