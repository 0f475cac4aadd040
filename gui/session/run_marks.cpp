#include "gui/session/run_marks.hpp"

#include "analysis/verification/ladder.hpp"
#include "analysis/verification/measurands.hpp"

#include <algorithm>
#include <limits>

namespace zeroline::session {

using signal::PhaseKind;

namespace {

constexpr double kOpen = std::numeric_limits<double>::infinity();
constexpr double kShortest_s = 0.1; ///< of a phase that is prescribed as none

/// The phase whose pressure a measurand is; none: it is something else.
std::optional<PhaseKind> phase_of(const std::string& measurand)
{
    using Kind = verification::MeasurandKind;
    const auto* known = verification::measurand_named(measurand);
    const bool pressure = known != nullptr && (known->kind == Kind::pressure || known->kind == Kind::residual);
    return pressure ? known->phase : std::nullopt;
}

double duration_s(const verification::Preset& preset, PhaseKind phase)
{
    return phase == PhaseKind::insufflation   ? preset.insufflation.duration_s
           : phase == PhaseKind::exsufflation ? preset.exsufflation.duration_s
                                              : preset.pause.duration_s;
}

PhaseKind next_after(PhaseKind phase)
{
    return phase == PhaseKind::insufflation   ? PhaseKind::exsufflation
           : phase == PhaseKind::exsufflation ? PhaseKind::pause
                                              : PhaseKind::insufflation;
}

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

PhaseLimits::PhaseLimits(const verification::Assessment& assessment, const verification::WorkOrder& order,
                         const verification::HouseProfile& house, double zero_cmH2O)
{
    for (const auto& judgement : assessment.judgements) {
        const auto* preset = order.preset(judgement.preset);
        const auto phase = phase_of(judgement.measurand);
        const bool limited = judgement.limits.lower || judgement.limits.upper;
        if (preset != nullptr && phase && judgement.against == "prescribed" && limited) {
            const double level = *phase == PhaseKind::pause ? preset->pause.pressure_cmH2O : 0.0;
            bands_.try_emplace({judgement.preset, *phase},
                               PressureBand{judgement.limits.lower.value_or(-kOpen) + level + zero_cmH2O,
                                            judgement.limits.upper.value_or(kOpen) + level + zero_cmH2O});
        }
    }
    const auto& zero = order.tolerances.zero ? order.tolerances.zero : house.tolerances.zero;
    for (const auto& preset : order.presets) {
        if (zero && zero->absolute) {
            const double level = preset.pause.pressure_cmH2O + zero_cmH2O;
            bands_.try_emplace({preset.name, PhaseKind::pause},
                               PressureBand{level - *zero->absolute, level + *zero->absolute});
        }
    }
}

std::optional<PressureBand> PhaseLimits::of(const std::string& preset, PhaseKind phase) const
{
    const auto found = bands_.find({preset, phase});
    return found != bands_.end() ? std::optional(found->second) : std::nullopt;
}

std::vector<PhaseBand> PhaseLimits::seen(const verification::Assessment& assessment) const
{
    std::vector<PhaseBand> bands;
    for (const auto& cycle : assessment.cycles) {
        for (const auto* phase : {&cycle.insufflation, &cycle.exsufflation, &cycle.pause}) {
            if (const auto band = *phase && !verification::is_of_ladder(cycle, assessment)
                                      ? of(cycle.preset, (*phase)->kind)
                                      : std::nullopt) {
                bands.push_back({(*phase)->first_time_s, (*phase)->last_time_s, *band});
            }
        }
    }
    std::sort(bands.begin(), bands.end(), [](const auto& a, const auto& b) { return a.from_s < b.from_s; });
    return bands;
}

std::vector<PhaseBand> PhaseLimits::now_and_next(const verification::Preset& preset, PhaseKind phase, double from_s,
                                                 double now_s, double until_s) const
{
    std::vector<PhaseBand> bands;
    const auto add = [&](double from, double to, PhaseBand::When when) {
        if (const auto band = of(preset.name, phase); band && to > from) {
            bands.push_back({from, std::min(to, until_s), *band, when});
        }
    };
    add(from_s, now_s, PhaseBand::When::now);
    double end_s = std::max(now_s, from_s + duration_s(preset, phase));
    add(now_s, end_s, PhaseBand::When::expected);
    while (end_s < until_s) {
        phase = next_after(phase);
        const double begin_s = end_s;
        end_s += std::max(duration_s(preset, phase), kShortest_s);
        add(begin_s, end_s, PhaseBand::When::expected);
    }
    return bands;
}

PressureBand zero_offset_band(const verification::HouseProfile& house)
{
    return {-house.zero_offset_cmH2O, house.zero_offset_cmH2O};
}

} // namespace zeroline::session
