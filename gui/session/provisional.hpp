#pragma once

#include "gui/session/bench_run.hpp"

namespace zeroline::session {

/// The judge of a live run: derives the readings so far and assesses them, as it is done at the end. Everything handed
/// in must outlive it. Provisional: the final clock is fitted when the trace is closed.
[[nodiscard]] Judge provisional_judge(const trace::RawTrace& raw, const verification::WorkOrder& order,
                                      const trace::Instrument& instrument, const verification::HouseProfile& house);

} // namespace zeroline::session
