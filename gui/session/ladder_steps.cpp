#include "gui/session/ladder_steps.hpp"

#include "analysis/verification/bench_file.hpp"
#include "gui/session/prescribed_settings.hpp"
#include "gui/session/run_words.hpp"
#include "gui/session/shown_number.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::session {

using verification::Preset;
using verification::ProcedureStep;
using verification::WorkOrder;

namespace {

/// What is not dialled stays as prescribed.
verification::Settings dialled(const Preset& preset, double insufflation_cmH2O, double exsufflation_cmH2O)
{
    auto settings = as_prescribed(preset);
    settings.insufflation_pressure = insufflation_cmH2O;
    settings.exsufflation_pressure = exsufflation_cmH2O;
    return settings;
}

verification::Settings dialled(const Preset& preset, double duration_s)
{
    auto settings = as_prescribed(preset);
    settings.insufflation_duration = settings.exsufflation_duration = duration_s;
    return settings;
}

double highest_of(const WorkOrder& order)
{
    double highest_cmH2O = 0.0;
    for (const auto& preset : order.presets) {
        highest_cmH2O = std::max(
            {highest_cmH2O, preset.insufflation.pressure_cmH2O, std::fabs(preset.exsufflation.pressure_cmH2O)});
    }
    return highest_cmH2O;
}

/// Pressures of both signs alike from the lowest up, an unequal pair, then both durations at the prescribed pressures.
std::vector<verification::Settings> ladder_settings(const ProcedureStep& ladder, const Preset& preset, double highest)
{
    const double to = ladder.to_cmH2O.value_or(highest);
    const double from = std::min(ladder.from_cmH2O, to);
    std::vector<verification::Settings> all;
    for (double pressure = from; pressure < to; pressure += ladder.rise_cmH2O) {
        all.push_back(dialled(preset, pressure, -pressure));
    }
    all.push_back(dialled(preset, to, -to));
    if (to > from) {
        all.push_back(dialled(preset, to, -from));
    }
    for (const double duration_s : ladder.durations_s) {
        all.push_back(dialled(preset, duration_s));
    }
    return all;
}

RunStep step_of(StepKind kind, Deed deed, const Preset& preset)
{
    RunStep step;
    step.kind = kind;
    step.place = "Ladder";
    step.deed = deed;
    step.preset = preset.name;
    return step;
}

RunStep ladder_step(const ProcedureStep& source, const Preset& preset, const verification::Settings& settings,
                    const QString& which)
{
    auto step = step_of(StepKind::ladder, Deed::dial, preset);
    step.source = source;
    step.dialled = settings;
    const auto words = QString::fromStdString(in_one_line(with(settings, preset), false));
    step.sentence = said(Run::tr("Setting %1: stop the unit, dial in %2, start automatic mode.").arg(which, words));
    step.waits_for = said(Run::tr("cycles at %1").arg(words));
    step.check = said(Run::tr("is it dialled in, is the unit in automatic mode, is the breath trigger off?"));
    return step;
}

RunStep dial_back_step(const Preset& preset)
{
    auto step = step_of(StepKind::confirm, Deed::dial_back, preset);
    step.sentence = said(Run::tr("Stop the unit and dial it back to what is prescribed, preset '%1': %2. Read it back.")
                             .arg(quoted(preset.name), QString::fromStdString(in_one_line(preset))));
    step.waits_for = said(Run::tr("your word"));
    step.dialled = as_prescribed(preset);
    return step;
}

RunStep rest_between(double rest_s, const Preset& preset)
{
    auto step = step_of(StepKind::stand_still, Deed::stop_unit, preset);
    step.sentence = said(Run::tr("Stop the unit and let it rest: %1 s.").arg(session::shown(rest_s, 0)));
    step.waits_for = said(Run::tr("the unit to stand still"));
    step.check = said(Run::tr("is the unit still cycling?"));
    step.source.seconds = rest_s;
    return step;
}

/// About, with what goes by until enough is judged.
double cycling_s(const ProcedureStep& ladder, const Preset& set, const WorkOrder& order)
{
    const double cycle_s = set.insufflation.duration_s + set.exsufflation.duration_s + set.pause.duration_s;
    return cycle_s * (order.lead_cycles + ladder.cycles + 1);
}

} // namespace

std::vector<RunStep> ladder_steps(const ProcedureStep& ladder, const WorkOrder& order)
{
    const auto& preset = order.presets.back();
    const auto all = ladder_settings(ladder, preset, highest_of(order));
    constexpr verification::Duty duty;
    std::vector<RunStep> steps;
    double cycled_s = 0.0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const double next_s = cycling_s(ladder, with(all[i], preset), order);
        if (cycled_s > 0.0 && cycled_s + next_s > duty.cycling_s) {
            steps.push_back(rest_between(duty.rest_s, preset));
            cycled_s = 0.0;
        }
        cycled_s += next_s;
        steps.push_back(ladder_step(ladder, preset, all[i], Run::tr("%1 of %2").arg(i + 1).arg(all.size())));
    }
    steps.push_back(dial_back_step(preset));
    return steps;
}

} // namespace zeroline::session
