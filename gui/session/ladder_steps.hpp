#pragma once

#include "gui/session/run_steps.hpp"

#include <vector>

namespace zeroline::session {

/// The steps of a ladder, on the last preset of the order, which the unit is at by then: pressures of both signs alike
/// from the lowest up, an unequal pair, then durations at the prescribed pressures; a rest before too much of blocked
/// running; in the end the unit is dialled back to what is prescribed.
[[nodiscard]] std::vector<RunStep> ladder_steps(const verification::ProcedureStep& ladder,
                                                const verification::WorkOrder& order);

} // namespace zeroline::session
