#include "analysis/verification/preset_reader.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

using trace::JsonReader;

constexpr double kPausePressureHigh = 20.0;
constexpr double kPauseClearance = 5.0; ///< a phase nearer to the pause level than this is no phase

struct FlowWords {
    Flow flow = Flow::full;
    std::string as_labelled;
};

FlowWords read_flow(const JsonReader& at)
{
    if (!at.tree().is_object()) {
        return {at.one_of({"full", "reduced"}) == 0 ? Flow::full : Flow::reduced, {}};
    }
    at.object_with_only({"class", "as_labelled"});
    FlowWords words{at.at("class").one_of({"full", "reduced"}) == 0 ? Flow::full : Flow::reduced, {}};
    if (const auto label = at.find("as_labelled")) {
        words.as_labelled = label->filled_text();
    }
    return words;
}

bool read_on(const JsonReader& at) { return at.one_of({"on", "off"}) == 0; }

OscillationSetting read_oscillation(const JsonReader& at)
{
    at.object_with_only({"frequency", "amplitude", "during"});
    OscillationSetting setting;
    setting.frequency_hz = at.at("frequency").number(1.0, 20.0);
    setting.amplitude_cmH2O = at.at("amplitude").number(0.5, 10.0);
    const auto during = at.find("during");
    constexpr During kWords[] = {During::insufflation, During::exsufflation, During::both};
    setting.during = during ? kWords[during->one_of({"insufflation", "exsufflation", "both"})] : During::both;
    return setting;
}

Series read_series(const JsonReader& at)
{
    at.object_with_only({"breaths", "count", "rest"});
    Series series;
    series.breaths = static_cast<int>(at.at("breaths").integer(1, 100));
    if (const auto count = at.find("count")) {
        series.count = static_cast<int>(count->integer(1, 100));
    }
    if (const auto rest = at.find("rest")) {
        series.rest_s = rest->number(0.0, 600.0);
    }
    return series;
}

double read_pause_duration(const JsonReader& at, const Plausible& bounds)
{
    const double value = at.number(0.0, bounds.duration_high_s);
    if (value > 0.0 && value < bounds.duration_low_s) {
        at.refuse(at.tree().dump(), "0 (no pause), or a number from 0.2 to 10");
    }
    return value;
}

double read_pause_pressure(const JsonReader& at) { return at.number(-kPausePressureHigh, kPausePressureHigh); }

PhaseSetting read_phase(const JsonReader& at, Step step)
{
    at.object_with_only({"pressure", "duration"});
    const auto pressure = at.at("pressure");
    return {step == Step::insufflation ? read_insufflation_pressure(pressure, kPrescribable)
                                       : read_exsufflation_pressure(pressure, kPrescribable),
            at.at("duration").number(kPrescribable.duration_low_s, kPrescribable.duration_high_s)};
}

PhaseSetting read_pause(const JsonReader& at)
{
    at.object_with_only({"duration", "pressure"});
    PhaseSetting pause;
    pause.duration_s = read_pause_duration(at.at("duration"), kPrescribable);
    if (const auto pressure = at.find("pressure")) {
        pause.pressure_cmH2O = read_pause_pressure(*pressure);
    }
    return pause;
}

void check_pause_pressure(const JsonReader& at, const Preset& preset)
{
    const double level = preset.pause.pressure_cmH2O;
    const bool clear = preset.insufflation.pressure_cmH2O - level >= kPauseClearance &&
                       level - preset.exsufflation.pressure_cmH2O >= kPauseClearance;
    if (!clear) {
        const auto place = at.at("pause").at("pressure");
        place.refuse(place.tree().dump(), "a pause pressure at least 5 cmH2O away from both phases");
    }
}

std::vector<Step> read_sequence(const JsonReader& at, const Preset& preset)
{
    std::vector<Step> steps;
    for (const auto& element : at.elements()) {
        steps.push_back(read_step(element));
    }
    const auto has = [&](Step step) { return std::find(steps.begin(), steps.end(), step) != steps.end(); };
    if (!has(Step::insufflation) || !has(Step::exsufflation) || steps.size() > 16) {
        at.refuse(std::to_string(steps.size()) + " steps",
                  "at most 16 steps with an insufflation and an exsufflation among them");
    }
    if (preset.pause.duration_s > 0.0 && !has(Step::pause)) {
        at.refuse("no pause", "a pause, because the preset's pause lasts longer than 0 s");
    }
    return steps;
}

std::string shortened(const JsonReader& at) { return at.tree().dump(); }

void read_settings_phases(const JsonReader& at, Settings& settings)
{
    if (const auto phase = at.find("insufflation")) {
        phase->object_with_only({"pressure", "duration"});
        if (const auto pressure = phase->find("pressure")) {
            settings.insufflation_pressure = read_insufflation_pressure(*pressure, kFindable);
        }
        if (const auto duration = phase->find("duration")) {
            settings.insufflation_duration = duration->number(kFindable.duration_low_s, kFindable.duration_high_s);
        }
    }
    if (const auto phase = at.find("exsufflation")) {
        phase->object_with_only({"pressure", "duration"});
        if (const auto pressure = phase->find("pressure")) {
            settings.exsufflation_pressure = read_exsufflation_pressure(*pressure, kFindable);
        }
        if (const auto duration = phase->find("duration")) {
            settings.exsufflation_duration = duration->number(kFindable.duration_low_s, kFindable.duration_high_s);
        }
    }
    if (const auto pause = at.find("pause")) {
        pause->object_with_only({"duration", "pressure"});
        if (const auto duration = pause->find("duration")) {
            settings.pause_duration = read_pause_duration(*duration, kFindable);
        }
        if (const auto pressure = pause->find("pressure")) {
            settings.pause_pressure = read_pause_pressure(*pressure);
        }
    }
}

} // namespace

double read_insufflation_pressure(const JsonReader& at, const Plausible& bounds)
{
    if (at.tree().is_number() && at.tree().get<double>() < 0.0) {
        at.refuse(shortened(at), "a positive number: an insufflation pressure is positive");
    }
    return at.number(bounds.pressure_low, bounds.pressure_high);
}

double read_exsufflation_pressure(const JsonReader& at, const Plausible& bounds)
{
    if (at.tree().is_number() && at.tree().get<double>() > 0.0) {
        at.refuse(shortened(at), "a negative number: an exsufflation pressure is negative, write the minus sign");
    }
    // Plus zero, because a pressure of "minus 0" would be printed so.
    return at.number(-bounds.pressure_high, -bounds.pressure_low) + 0.0;
}

Step read_step(const JsonReader& at)
{
    constexpr Step kWords[] = {Step::insufflation, Step::exsufflation, Step::pause};
    return kWords[at.one_of({"insufflation", "exsufflation", "pause"})];
}

Preset read_preset(const JsonReader& at)
{
    at.object_with_only(
        {"name", "insufflation", "exsufflation", "pause", "flow", "trigger", "sequence", "oscillation", "series"});
    Preset preset;
    preset.name = at.at("name").filled_text();
    preset.insufflation = read_phase(at.at("insufflation"), Step::insufflation);
    preset.exsufflation = read_phase(at.at("exsufflation"), Step::exsufflation);
    preset.pause = read_pause(at.at("pause"));
    check_pause_pressure(at, preset);
    if (const auto flow = at.find("flow")) {
        const auto words = read_flow(*flow);
        preset.flow = words.flow;
        preset.flow_as_labelled = words.as_labelled;
    }
    if (const auto trigger = at.find("trigger")) {
        preset.trigger_on = read_on(*trigger);
    }
    if (const auto sequence = at.find("sequence")) {
        preset.sequence = read_sequence(*sequence, preset);
    }
    if (const auto oscillation = at.find("oscillation")) {
        preset.oscillation = read_oscillation(*oscillation);
    }
    if (const auto series = at.find("series")) {
        preset.series = read_series(*series);
    }
    return preset;
}

Settings read_settings(const JsonReader& at)
{
    at.object_with_only(
        {"insufflation", "exsufflation", "pause", "flow", "trigger", "oscillation", "series", "mode", "alarms"});
    Settings settings;
    read_settings_phases(at, settings);
    if (const auto flow = at.find("flow")) {
        settings.flow = read_flow(*flow).flow;
    }
    if (const auto trigger = at.find("trigger")) {
        settings.trigger_on = read_on(*trigger);
    }
    if (const auto oscillation = at.find("oscillation")) {
        settings.oscillation_on = !oscillation->tree().is_string();
        if (*settings.oscillation_on) {
            settings.oscillation = read_oscillation(*oscillation);
        } else {
            (void)oscillation->one_of({"off"});
        }
    }
    if (const auto series = at.find("series")) {
        settings.series = read_series(*series);
    }
    if (const auto mode = at.find("mode")) {
        settings.mode = mode->filled_text();
    }
    if (const auto alarms = at.find("alarms")) {
        settings.alarms_on = read_on(*alarms);
    }
    return settings;
}

Preset with(const Settings& settings, Preset preset)
{
    preset.insufflation.pressure_cmH2O = settings.insufflation_pressure.value_or(preset.insufflation.pressure_cmH2O);
    preset.insufflation.duration_s = settings.insufflation_duration.value_or(preset.insufflation.duration_s);
    preset.exsufflation.pressure_cmH2O = settings.exsufflation_pressure.value_or(preset.exsufflation.pressure_cmH2O);
    preset.exsufflation.duration_s = settings.exsufflation_duration.value_or(preset.exsufflation.duration_s);
    preset.pause.duration_s = settings.pause_duration.value_or(preset.pause.duration_s);
    preset.pause.pressure_cmH2O = settings.pause_pressure.value_or(preset.pause.pressure_cmH2O);
    preset.flow = settings.flow ? settings.flow : preset.flow;
    preset.trigger_on = settings.trigger_on ? settings.trigger_on : preset.trigger_on;
    preset.series = settings.series ? settings.series : preset.series;
    if (settings.oscillation_on) {
        preset.oscillation = *settings.oscillation_on ? settings.oscillation : std::nullopt;
    }
    return preset;
}

} // namespace zeroline::verification
