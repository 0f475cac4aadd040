#pragma once

#include "analysis/verification/findings/finding_basis.hpp"

namespace zeroline::verification {

/// One finding a function, in the order of docs/diagnosis.md. Each returns what it sees: nothing, one, or one a preset.

// The zero and the papers: zero_and_calibration.cpp
[[nodiscard]] Findings zero_offset(const FindingBasis& basis);
[[nodiscard]] Findings zero_drift(const FindingBasis& basis);
[[nodiscard]] Findings absolute_sensor(const FindingBasis& basis);
[[nodiscard]] Findings calibration_lapsed(const FindingBasis& basis);
[[nodiscard]] Findings outside_calibration(const FindingBasis& basis);
[[nodiscard]] Findings not_warmed_up(const FindingBasis& basis);
[[nodiscard]] Findings room_temperature(const FindingBasis& basis);

// The sensor and the line: sensor.cpp, line.cpp
[[nodiscard]] Findings one_sided(const FindingBasis& basis);
[[nodiscard]] Findings unit_mismatch(const FindingBasis& basis);
[[nodiscard]] Findings clipped(const FindingBasis& basis);
[[nodiscard]] Findings stuck_reading(const FindingBasis& basis);
[[nodiscard]] Findings resolution_limited(const FindingBasis& basis);
[[nodiscard]] Findings hum(const FindingBasis& basis);
[[nodiscard]] Findings gap(const FindingBasis& basis);
[[nodiscard]] Findings spikes(const FindingBasis& basis);
[[nodiscard]] Findings discarded_bytes(const FindingBasis& basis);
[[nodiscard]] Findings batched(const FindingBasis& basis);
[[nodiscard]] Findings undersampled(const FindingBasis& basis);

// Hose end and hands: hose_end.cpp, soft_hose_end.cpp, breathing.cpp, wobble.cpp
[[nodiscard]] Findings breathing(const FindingBasis& basis);
[[nodiscard]] Findings plug_off(const FindingBasis& basis);
[[nodiscard]] Findings set_up_leaks(const FindingBasis& basis);
[[nodiscard]] Findings swapped_ports(const FindingBasis& basis);
[[nodiscard]] Findings wobble(const FindingBasis& basis);
[[nodiscard]] Findings soft_hose_end(const FindingBasis& basis);
[[nodiscard]] Findings one_cycle_unlike(const FindingBasis& basis);

// What was set, what came: levels.cpp, level_patterns.cpp
[[nodiscard]] Findings over_pressure(const FindingBasis& basis);
[[nodiscard]] Findings insufflation_off(const FindingBasis& basis);
[[nodiscard]] Findings exsufflation_off(const FindingBasis& basis);
[[nodiscard]] Findings same_ratio_pressure(const FindingBasis& basis);
[[nodiscard]] Findings same_shift_pressure(const FindingBasis& basis);
[[nodiscard]] Findings settings_differ(const FindingBasis& basis);
[[nodiscard]] Findings display_differs(const FindingBasis& basis);
[[nodiscard]] Findings pressure_drift(const FindingBasis& basis);
[[nodiscard]] Findings strength_lost(const FindingBasis& basis);
[[nodiscard]] Findings first_cycle(const FindingBasis& basis);

// Phases that are missing, late, or in the wrong order: sequence.cpp, timing.cpp
[[nodiscard]] Findings no_cycling(const FindingBasis& basis);
[[nodiscard]] Findings missing_insufflation(const FindingBasis& basis);
[[nodiscard]] Findings missing_exsufflation(const FindingBasis& basis);
[[nodiscard]] Findings reversed_order(const FindingBasis& basis);
[[nodiscard]] Findings long_pause(const FindingBasis& basis);
[[nodiscard]] Findings series_ended(const FindingBasis& basis);
[[nodiscard]] Findings series_plan(const FindingBasis& basis);
[[nodiscard]] Findings cut_phase(const FindingBasis& basis);
[[nodiscard]] Findings one_duration_off(const FindingBasis& basis);
[[nodiscard]] Findings same_ratio_timing(const FindingBasis& basis);
[[nodiscard]] Findings irregular_timing(const FindingBasis& basis);

// Edges: edges.cpp
[[nodiscard]] Findings slow_rise(const FindingBasis& basis);
[[nodiscard]] Findings slow_swing(const FindingBasis& basis);
[[nodiscard]] Findings slow_release(const FindingBasis& basis);
[[nodiscard]] Findings irregular_swing(const FindingBasis& basis);
[[nodiscard]] Findings overshoot(const FindingBasis& basis);
[[nodiscard]] Findings ringing(const FindingBasis& basis);

// Plateaus and pauses: plateau_shape.cpp, pauses.cpp
[[nodiscard]] Findings droop(const FindingBasis& basis);
[[nodiscard]] Findings oscillation(const FindingBasis& basis);
[[nodiscard]] Findings oscillation_off(const FindingBasis& basis);
[[nodiscard]] Findings residual_pressure(const FindingBasis& basis);
[[nodiscard]] Findings slow_return(const FindingBasis& basis);
[[nodiscard]] Findings trapped_gas(const FindingBasis& basis);

} // namespace zeroline::verification
