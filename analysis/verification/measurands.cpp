#include "analysis/verification/measurands.hpp"

#include <algorithm>

/// Marks a word that the screen translates; the translators' tool looks for this name.
#define ZEROLINE_SCREEN_WORD(context, word) word

namespace zeroline::verification {

using signal::PhaseKind;

bool Measurand::has_sign() const noexcept
{
    return kind == MeasurandKind::pressure || kind == MeasurandKind::residual || kind == MeasurandKind::displayed ||
           kind == MeasurandKind::difference;
}

// Two decimals of a pressure, as a limit of 38 says nothing about 37.96 shown as 38.0; three of a time, as U is a few
// milliseconds.
const std::vector<Measurand>& all_measurands()
{
    static const std::vector<Measurand> all{
        {measurand::insufflation_pressure, ZEROLINE_SCREEN_WORD("Result", "insufflation pressure"), "cmH2O", 2,
         PhaseKind::insufflation, MeasurandKind::pressure},
        {measurand::exsufflation_pressure, ZEROLINE_SCREEN_WORD("Result", "exsufflation pressure"), "cmH2O", 2,
         PhaseKind::exsufflation, MeasurandKind::pressure},
        {measurand::insufflation_duration, ZEROLINE_SCREEN_WORD("Result", "insufflation duration"), "s", 3,
         PhaseKind::insufflation, MeasurandKind::duration},
        {measurand::exsufflation_duration, ZEROLINE_SCREEN_WORD("Result", "exsufflation duration"), "s", 3,
         PhaseKind::exsufflation, MeasurandKind::duration},
        {measurand::pause_duration, ZEROLINE_SCREEN_WORD("Result", "pause duration"), "s", 3, PhaseKind::pause,
         MeasurandKind::duration},
        {measurand::pause_residual, ZEROLINE_SCREEN_WORD("Result", "pause residual"), "cmH2O", 2, PhaseKind::pause,
         MeasurandKind::residual},
        {measurand::return_to_zero, ZEROLINE_SCREEN_WORD("Result", "return to zero"), "s", 3, PhaseKind::pause,
         MeasurandKind::return_time},
        {measurand::battery_insufflation, ZEROLINE_SCREEN_WORD("Result", "insufflation pressure, battery less mains"),
         "cmH2O", 2, PhaseKind::insufflation, MeasurandKind::difference},
        {measurand::battery_exsufflation, ZEROLINE_SCREEN_WORD("Result", "exsufflation pressure, battery less mains"),
         "cmH2O", 2, PhaseKind::exsufflation, MeasurandKind::difference},
        {measurand::displayed_insufflation, ZEROLINE_SCREEN_WORD("Result", "displayed insufflation"), "cmH2O", 2,
         PhaseKind::insufflation, MeasurandKind::displayed},
        {measurand::displayed_exsufflation, ZEROLINE_SCREEN_WORD("Result", "displayed exsufflation"), "cmH2O", 2,
         PhaseKind::exsufflation, MeasurandKind::displayed},
        {measurand::oscillation_frequency, ZEROLINE_SCREEN_WORD("Result", "oscillation frequency"), "Hz", 2,
         std::nullopt, MeasurandKind::frequency},
        {measurand::oscillation_amplitude, ZEROLINE_SCREEN_WORD("Result", "oscillation amplitude"), "cmH2O", 2,
         std::nullopt, MeasurandKind::amplitude},
    };
    return all;
}

const Measurand* measurand_named(std::string_view code)
{
    const auto& all = all_measurands();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Measurand& one) { return one.code == code; });
    return found == all.end() ? nullptr : &*found;
}

const std::string& measurand_of(MeasurandKind kind, PhaseKind phase)
{
    const auto& all = all_measurands();
    return std::find_if(all.begin(), all.end(),
                        [&](const Measurand& one) { return one.kind == kind && one.phase == phase; })
        ->code;
}

bool is_of_pause(std::string_view code)
{
    const auto* measurand = measurand_named(code);
    return measurand != nullptr && measurand->phase == signal::PhaseKind::pause;
}

} // namespace zeroline::verification
