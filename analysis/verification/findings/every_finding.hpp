#pragma once

#include "analysis/verification/findings/look.hpp"

namespace zeroline::verification {

/// One finding a function, in the order of docs/diagnosis.md. Each returns what it sees: nothing, one, or one a preset.

// The zero and the papers: zero_and_calibration.cpp
[[nodiscard]] Findings zero_offset(const Look& look);
[[nodiscard]] Findings zero_drift(const Look& look);
[[nodiscard]] Findings absolute_sensor(const Look& look);
[[nodiscard]] Findings calibration_lapsed(const Look& look);
[[nodiscard]] Findings outside_calibration(const Look& look);

// The sensor and the line: sensor.cpp, line.cpp
[[nodiscard]] Findings one_sided(const Look& look);
[[nodiscard]] Findings unit_mismatch(const Look& look);
[[nodiscard]] Findings clipped(const Look& look);
[[nodiscard]] Findings stuck_reading(const Look& look);
[[nodiscard]] Findings resolution_limited(const Look& look);
[[nodiscard]] Findings hum(const Look& look);
[[nodiscard]] Findings gap(const Look& look);
[[nodiscard]] Findings spikes(const Look& look);
[[nodiscard]] Findings discarded_bytes(const Look& look);
[[nodiscard]] Findings batched(const Look& look);
[[nodiscard]] Findings undersampled(const Look& look);

// Hose end and hands: hose_end.cpp, soft_hose_end.cpp, breathing.cpp, wobble.cpp
[[nodiscard]] Findings breathing(const Look& look);
[[nodiscard]] Findings plug_off(const Look& look);
[[nodiscard]] Findings set_up_leaks(const Look& look);
[[nodiscard]] Findings swapped_ports(const Look& look);
[[nodiscard]] Findings wobble(const Look& look);
[[nodiscard]] Findings soft_hose_end(const Look& look);
[[nodiscard]] Findings one_cycle_unlike(const Look& look);

// What was set, what came: levels.cpp, level_patterns.cpp
[[nodiscard]] Findings over_pressure(const Look& look);
[[nodiscard]] Findings insufflation_off(const Look& look);
[[nodiscard]] Findings exsufflation_off(const Look& look);
[[nodiscard]] Findings same_ratio_pressure(const Look& look);
[[nodiscard]] Findings same_shift_pressure(const Look& look);
[[nodiscard]] Findings settings_differ(const Look& look);
[[nodiscard]] Findings display_differs(const Look& look);
[[nodiscard]] Findings pressure_drift(const Look& look);
[[nodiscard]] Findings strength_lost(const Look& look);
[[nodiscard]] Findings first_cycle(const Look& look);

// Phases that are missing, late, or in the wrong order: sequence.cpp, timing.cpp
[[nodiscard]] Findings no_cycling(const Look& look);
[[nodiscard]] Findings missing_insufflation(const Look& look);
[[nodiscard]] Findings missing_exsufflation(const Look& look);
[[nodiscard]] Findings reversed_order(const Look& look);
[[nodiscard]] Findings long_pause(const Look& look);
[[nodiscard]] Findings series_ended(const Look& look);
[[nodiscard]] Findings series_plan(const Look& look);
[[nodiscard]] Findings cut_phase(const Look& look);
[[nodiscard]] Findings one_duration_off(const Look& look);
[[nodiscard]] Findings same_ratio_timing(const Look& look);
[[nodiscard]] Findings irregular_timing(const Look& look);

// Edges: edges.cpp
[[nodiscard]] Findings slow_rise(const Look& look);
[[nodiscard]] Findings slow_swing(const Look& look);
[[nodiscard]] Findings slow_release(const Look& look);
[[nodiscard]] Findings irregular_swing(const Look& look);
[[nodiscard]] Findings overshoot(const Look& look);
[[nodiscard]] Findings ringing(const Look& look);

// Plateaus and pauses: plateau_shape.cpp, pauses.cpp
[[nodiscard]] Findings droop(const Look& look);
[[nodiscard]] Findings oscillation(const Look& look);
[[nodiscard]] Findings oscillation_off(const Look& look);
[[nodiscard]] Findings residual_pressure(const Look& look);
[[nodiscard]] Findings slow_return(const Look& look);
[[nodiscard]] Findings trapped_gas(const Look& look);

} // namespace zeroline::verification
