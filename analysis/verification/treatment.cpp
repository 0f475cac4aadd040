#include "analysis/verification/treatment.hpp"

namespace zeroline::verification {

namespace {

double duration_of(const Preset& preset, Step step)
{
    switch (step) {
    case Step::insufflation:
        return preset.insufflation.duration_s;
    case Step::exsufflation:
        return preset.exsufflation.duration_s;
    case Step::pause:
        break;
    }
    return preset.pause.duration_s;
}

} // namespace

TreatmentPlan treatment_plan(const Preset& preset)
{
    TreatmentPlan plan;
    for (const auto step : preset.sequence) {
        plan.cycle_s += duration_of(preset, step);
    }
    const auto series = preset.series.value_or(Series{1, 1, 0.0});
    plan.count = series.count;
    plan.rest_s = series.rest_s;
    plan.series_s = series.breaths * plan.cycle_s;
    plan.cycling_s = plan.rest_s > 0.0 ? plan.series_s : plan.count * plan.series_s;
    plan.whole_s = plan.count * plan.series_s + (plan.count - 1) * plan.rest_s;
    return plan;
}

} // namespace zeroline::verification
