#pragma once

#include "gui/session/bench_run.hpp"

namespace zeroline::session {

/// The judge of a live run: assesses the readings so far. A cycle that has ended is measured from its own samples, once
/// it lies behind (verification::PhaseMemory). Everything handed in must outlive it. Provisional: the final clock is
/// fitted when the trace is closed, and the whole is then measured at once.
[[nodiscard]] Judge provisional_judge(const trace::RawTrace& raw, const verification::WorkOrder& order,
                                      const trace::Instrument& instrument, const verification::HouseProfile& house);

} // namespace zeroline::session
