#include "analysis/signal/phases.hpp"

#include "analysis/signal/held_levels.hpp"
#include "analysis/signal/measurement.hpp"
#include "analysis/signal/shape.hpp"

#include <algorithm>

namespace zeroline::signal {

double Phase::start_s() const { return entering ? entering->onset.time_s : first_time_s; }

std::optional<double> Phase::duration_s() const
{
    if (!entering || !leaving) {
        return std::nullopt;
    }
    return leaving->onset.time_s - entering->onset.time_s;
}

std::optional<double> Phase::mid_level_duration_s() const
{
    if (!entering || !leaving) {
        return std::nullopt;
    }
    return leaving->mid.time_s - entering->mid.time_s;
}

std::vector<Phase> measure(Samples samples, MeasureOptions options)
{
    const bool noise_known = options.noise_cmH2O > 0.0;
    if (!noise_known) {
        options.noise_cmH2O = sample_noise(samples);
    }
    if (options.larger_plateau_cmH2O <= 0.0 || !options.rest_cmH2O) {
        const HeldLevels held = held_levels(samples, options.pause_level_cmH2O, options.noise_cmH2O);
        options.larger_plateau_cmH2O =
            options.larger_plateau_cmH2O > 0.0 ? options.larger_plateau_cmH2O : held.larger_plateau_cmH2O;
        options.rest_cmH2O = options.rest_cmH2O.value_or(held.rest_cmH2O);
    }
    if (options.larger_plateau_cmH2O <= 0.0) {
        return {};
    }
    return Measurement(samples, options, noise_known).phases();
}

} // namespace zeroline::signal
