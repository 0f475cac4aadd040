#include "gui/session/run_marks.hpp"

#include "analysis/verification/measurands.hpp"

#include <algorithm>

namespace zeroline::session {

namespace {

double end_of(const verification::Cycle& cycle)
{
    double end_s = cycle.start_s;
    for (const auto* phase : {&cycle.insufflation, &cycle.exsufflation, &cycle.pause}) {
        if (*phase) {
            end_s = std::max(end_s, (*phase)->last_time_s);
        }
    }
    return end_s;
}

} // namespace

std::vector<CycleMark> cycle_marks(const verification::Assessment& assessment)
{
    std::vector<CycleMark> marks;
    for (const auto& cycle : assessment.cycles) {
        if (!marks.empty()) {
            marks.back().to_s = std::min(marks.back().to_s, cycle.start_s);
        }
        marks.push_back({cycle.index, cycle.start_s, end_of(cycle), cycle.judged});
    }
    return marks;
}

std::optional<PressureBand> tolerance_band(const verification::Assessment& assessment, const std::string& preset,
                                           signal::PhaseKind phase, double zero_cmH2O)
{
    if (phase == signal::PhaseKind::pause) {
        return std::nullopt;
    }
    const auto& measurand = verification::measurand_of(verification::MeasurandKind::pressure, phase);
    for (const auto& judgement : assessment.judgements) {
        const bool it = judgement.measurand == measurand && judgement.against == "prescribed" &&
                        (preset.empty() || judgement.preset == preset);
        if (it && judgement.limits.lower && judgement.limits.upper) {
            return PressureBand{*judgement.limits.lower + zero_cmH2O, *judgement.limits.upper + zero_cmH2O};
        }
    }
    return std::nullopt;
}

std::optional<PressureBand> zero_band(const verification::WorkOrder& order, const verification::HouseProfile& house,
                                      const std::string& preset, double zero_cmH2O)
{
    const auto& own = order.tolerances.zero;
    const auto& tolerance = own ? own : house.tolerances.zero;
    const auto* found = order.preset(preset);
    const double level = found != nullptr ? found->pause.pressure_cmH2O : 0.0;
    if (!tolerance || !tolerance->absolute) {
        return std::nullopt;
    }
    return PressureBand{level - *tolerance->absolute + zero_cmH2O, level + *tolerance->absolute + zero_cmH2O};
}

} // namespace zeroline::session
