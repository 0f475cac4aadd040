#pragma once

#include "acquisition/trace/instrument.hpp"
#include "gui/session/instrument_state.hpp"
#include "gui/session/run_steps.hpp"

#include <QString>

namespace zeroline::window {

/// What an order asks for, to be read before a run: unit, and each preset in a line.
[[nodiscard]] QString order_summary(const verification::WorkOrder& order);

/// What a person hears before a run, a line each.
[[nodiscard]] QString cautions_text(const verification::WorkOrder& order);

/// Which instrument it is, whether its calibration still holds today, and its check against a second gauge.
[[nodiscard]] QString instrument_summary(const trace::Instrument& instrument, const session::InstrumentState& check);

} // namespace zeroline::window
