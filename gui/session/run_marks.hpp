#pragma once

#include "analysis/verification/assessment.hpp"
#include "gui/session/trace_history.hpp"

#include <optional>
#include <vector>

namespace zeroline::session {

/// A cycle as it is numbered on the trace.
struct CycleMark {
    int index = 0;
    double from_s = 0.0, to_s = 0.0;
    bool judged = false;
};

/// Pressures between which something is to stay, in cmH2O on the axis of the trace.
struct PressureBand {
    double low_cmH2O = 0.0, high_cmH2O = 0.0;
};

/// What is drawn behind and over a trace.
struct RunMarks {
    std::vector<CycleMark> cycles;
    std::vector<Stretch> lost;             ///< hatched: nothing came in
    std::optional<PressureBand> zero;      ///< about the prescribed pause level
    std::optional<PressureBand> tolerance; ///< of the phase that is recognised at this moment
    std::vector<PressureBand> limits;      ///< of all phases: for a trace that is looked at afterwards
};

[[nodiscard]] std::vector<CycleMark> cycle_marks(const verification::Assessment& assessment);

/// The band of a phase as it is judged against the prescription; none where it has no two limits yet. `zero_cmH2O` is
/// the reading at the open port: the trace shows pressures before it is subtracted.
[[nodiscard]] std::optional<PressureBand> tolerance_band(const verification::Assessment& assessment,
                                                         const std::string& preset, signal::PhaseKind phase,
                                                         double zero_cmH2O);
[[nodiscard]] std::optional<PressureBand> zero_band(const verification::WorkOrder& order,
                                                    const verification::HouseProfile& house, const std::string& preset,
                                                    double zero_cmH2O);

} // namespace zeroline::session
