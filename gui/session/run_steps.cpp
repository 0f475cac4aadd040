#include "gui/session/run_steps.hpp"

#include "gui/session/number_text.hpp"

namespace zeroline::session {

using verification::Preset;
using verification::Step;
using verification::WorkOrder;

namespace {

const char* const kCheckLine = "is data coming in, is the sensing line on the tee, does the plug sit tight?";

RunStep confirm(std::string place, std::string sentence, std::string confirms, Deed deed = Deed::nothing)
{
    RunStep step;
    step.kind = StepKind::confirm;
    step.place = std::move(place);
    step.sentence = std::move(sentence);
    step.waits_for = "your word";
    step.confirms = std::move(confirms);
    step.deed = deed;
    return step;
}

RunStep zero_step(StepKind kind, std::string place, std::string sentence)
{
    RunStep step;
    step.kind = kind;
    step.place = std::move(place);
    step.sentence = std::move(sentence);
    step.waits_for = "five quiet seconds";
    step.check = "is the line off the tee and open, does it hang still, has the instrument warmed up?";
    return step;
}

RunStep plug_step(const Preset& preset)
{
    RunStep step;
    step.kind = StepKind::plug;
    step.place = "Block";
    step.deed = Deed::plug_and_hold;
    step.preset = preset.name;
    step.sentence = "Put the sensing line back on the tee, shut the hose end with the plug, set the unit to manual and "
                    "preset '" +
                    preset.name + "', and hold insufflation for 3 s.";
    step.waits_for = "pressure: hold insufflation";
    step.check = kCheckLine;
    step.confirms = "outlet-blocked";
    return step;
}

RunStep manual_step(const Preset& preset)
{
    RunStep step;
    step.kind = StepKind::manual;
    step.place = "Manual";
    step.preset = preset.name;
    step.sentence = "Hold each phase for 3 s and let go. Read what the unit displays while you hold.";
    step.waits_for = "the phase that is asked for";
    step.check = kCheckLine;
    step.asked = {Step::insufflation, Step::exsufflation, Step::insufflation, Step::exsufflation};
    return step;
}

RunStep automatic_step(const Preset& preset)
{
    RunStep step;
    step.kind = StepKind::automatic;
    step.place = "Automatic";
    step.preset = preset.name;
    step.sentence = "Start automatic mode, preset '" + preset.name + "', trigger off.";
    step.waits_for = "cycles";
    step.check = "is the unit in automatic mode, is the breath trigger off, has its programmed series ended?";
    return step;
}

RunStep next_preset_step(const Preset& preset)
{
    RunStep step;
    step.kind = StepKind::stand_still;
    step.place = "Automatic";
    step.deed = Deed::select_preset;
    step.preset = preset.name;
    step.sentence =
        "Stop the unit and select preset '" + preset.name + "' (" + in_one_line(preset) + "). Leave the plug in.";
    step.waits_for = "the unit to stand still";
    step.check = "is the unit still cycling?";
    return step;
}

bool has_trigger(const WorkOrder& order)
{
    for (const auto& preset : order.presets) {
        if (preset.trigger_on.value_or(false)) {
            return true;
        }
    }
    return false;
}

void append_presets(std::vector<RunStep>& steps, const WorkOrder& order)
{
    for (std::size_t i = 0; i < order.presets.size(); ++i) {
        const auto& preset = order.presets[i];
        if (i > 0) {
            steps.push_back(next_preset_step(preset));
        }
        steps.push_back(manual_step(preset));
        steps.push_back(automatic_step(preset));
    }
}

} // namespace

std::vector<RunStep> guided_run(const WorkOrder& order)
{
    const auto& first = order.presets.front();
    std::vector<RunStep> steps;
    steps.push_back(confirm("Order", "The hose is off the person, and nobody connects it again until you are told to.",
                            "no-patient-connected"));
    steps.push_back(
        confirm("Order", "The settings as found are copied. Switch the breath trigger off.", "trigger-off"));
    steps.push_back(confirm("Instrument",
                            "Take the sensing line off the tee and leave it open to air. Switching the "
                            "unit off is not enough.",
                            {}, Deed::open_line));
    steps.push_back(zero_step(StepKind::zero_before, "Zero", "Reading zero: leave the line open and hold it still."));
    steps.push_back(plug_step(first));
    append_presets(steps, order);
    steps.push_back(confirm("Zero again",
                            "Switch the unit off, face away from the hose end, take the plug out, take the "
                            "sensing line off the tee and leave it open.",
                            {}, Deed::open_line));
    steps.push_back(zero_step(StepKind::zero_after, "Zero again", "Reading zero again: leave the line open."));
    auto back =
        confirm("Back", "Give the unit back as it must be; read each item back from the unit.", {}, Deed::stop_unit);
    back.kind = StepKind::hand_back;
    steps.push_back(std::move(back));
    return steps;
}

std::vector<std::string> hand_back_list(const WorkOrder& order)
{
    std::vector<std::string> list;
    if (has_trigger(order)) {
        list.push_back("breath trigger: on again where it was on when found");
    } else {
        list.push_back("breath trigger: as found");
    }
    for (const auto& preset : order.presets) {
        list.push_back("preset '" + preset.name + "': " + in_one_line(preset));
    }
    list.insert(list.end(),
                {"flow, oscillation and programmed series: as found", "mode: as found", "alarms: on as found",
                 "the person's own hose and a fresh filter fitted", "mains lead in, unit switched on"});
    return list;
}

std::vector<std::string> cautions_before_run(const WorkOrder& order)
{
    std::vector<std::string> cautions{
        "The hose is off the person and stays off until you are told. If the person may need the unit now: stop here "
        "and give it back.",
        "This is test equipment, not a medical device: no diagnosis, no monitoring. The prescriber sets the therapy, "
        "licensed staff apply it; the manufacturer's service documentation and local rules come first.",
        "A returned unit is contaminated until it is cleaned. Put a filter between unit and sensor, use a clean test "
        "hose, do not open the case. Electrical safety is tested by qualified people.",
        "Only pressures and times at a closed hose end are tested here."};
    if (!order.contact.empty()) {
        cautions.push_back("If somebody is left without a working unit: " + order.contact + ".");
    }
    return cautions;
}

std::string in_one_line(const Preset& preset)
{
    std::string line =
        signed_text(preset.insufflation.pressure_cmH2O) + " / " + signed_text(preset.exsufflation.pressure_cmH2O) +
        " cmH2O, " + number_text(preset.insufflation.duration_s) + " / " + number_text(preset.exsufflation.duration_s) +
        " / " + number_text(preset.pause.duration_s) + " s";
    if (preset.flow == verification::Flow::reduced) {
        line += ", reduced flow";
    }
    if (preset.oscillation) {
        line += ", oscillation " + number_text(preset.oscillation->frequency_hz) + " Hz";
    }
    if (preset.trigger_on) {
        line += *preset.trigger_on ? ", trigger on" : ", trigger off";
    }
    return line;
}

} // namespace zeroline::session
