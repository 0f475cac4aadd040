#pragma once

#include "analysis/verification/assessment.hpp"
#include "analysis/verification/bench_file.hpp"
#include "gui/session/trace_history.hpp"

#include <map>
#include <optional>
#include <string>
#include <utility>
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

/// Where a phase is to stay while it lasts. Limits that are not there are infinite.
struct PhaseBand {
    enum class When {
        seen,
        now,     ///< of the phase that is going on
        expected ///< of one that comes next
    };
    double from_s = 0.0, to_s = 0.0;
    PressureBand band;
    When when = When::seen;
};

/// What is drawn behind and over a trace.
struct RunMarks {
    std::vector<CycleMark> cycles;
    std::vector<Stretch> lost;        ///< hatched: nothing came in
    std::optional<PressureBand> zero; ///< while zero is read: where it may lie
    std::vector<PhaseBand> bands;     ///< each phase of each preset its own
};

[[nodiscard]] std::vector<CycleMark> cycle_marks(const verification::Assessment& assessment);

/// The bands that the phases of a preset are judged by against its prescription. `zero_cmH2O` is the reading at the
/// open port: a trace shows pressures before it is subtracted.
class PhaseLimits {
public:
    PhaseLimits(const verification::Assessment& assessment, const verification::WorkOrder& order,
                const verification::HouseProfile& house, double zero_cmH2O);

    /// None where it has no limit yet.
    [[nodiscard]] std::optional<PressureBand> of(const std::string& preset, signal::PhaseKind phase) const;
    /// Of every phase that was recognised, where it is.
    [[nodiscard]] std::vector<PhaseBand> seen(const verification::Assessment& assessment) const;
    /// Of the phase that goes on since `from_s`, up to `now_s`, and of those that follow it in the cycle, up to
    /// `until_s`.
    [[nodiscard]] std::vector<PhaseBand> now_and_next(const verification::Preset& preset, signal::PhaseKind phase,
                                                      double from_s, double now_s, double until_s) const;

private:
    std::map<std::pair<std::string, signal::PhaseKind>, PressureBand> bands_;
};

/// Where a zero reading may lie, on the axis of the trace.
[[nodiscard]] PressureBand zero_offset_band(const verification::HouseProfile& house);

} // namespace zeroline::session
