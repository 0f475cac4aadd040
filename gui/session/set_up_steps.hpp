#pragma once

#include "gui/session/run_steps.hpp"

namespace zeroline::session {

/// The instrument held against a second gauge.
[[nodiscard]] RunStep gauge_step(const verification::ProcedureStep& source);
/// The leak test of the set-up.
[[nodiscard]] RunStep leak_step();
/// The orifice in place of the plug, and cycles with it at the last preset of the order.
[[nodiscard]] RunStep strength_step(const verification::ProcedureStep& source, const verification::WorkOrder& order);
/// The plug in place of the orifice again.
[[nodiscard]] RunStep plug_back_step(const verification::WorkOrder& order);

} // namespace zeroline::session
