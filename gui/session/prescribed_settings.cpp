#include "gui/session/prescribed_settings.hpp"

namespace zeroline::session {

verification::Settings as_prescribed(const verification::Preset& preset)
{
    verification::Settings settings;
    settings.insufflation_pressure = preset.insufflation.pressure_cmH2O;
    settings.insufflation_duration = preset.insufflation.duration_s;
    settings.exsufflation_pressure = preset.exsufflation.pressure_cmH2O;
    settings.exsufflation_duration = preset.exsufflation.duration_s;
    settings.pause_duration = preset.pause.duration_s;
    settings.flow = preset.flow;
    settings.trigger_on = preset.trigger_on;
    return settings;
}

} // namespace zeroline::session
