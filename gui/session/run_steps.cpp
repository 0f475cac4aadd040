#include "gui/session/run_steps.hpp"

#include "gui/records/procedure_file.hpp"
#include "gui/session/ladder_steps.hpp"
#include "gui/session/number_text.hpp"
#include "gui/session/procedure_words.hpp"
#include "gui/session/run_words.hpp"
#include "gui/session/series_words.hpp"
#include "gui/session/set_up_steps.hpp"
#include "gui/session/shown_number.hpp"

#include <utility>

namespace zeroline::session {

using verification::Preset;
using verification::Step;
using verification::WorkOrder;

namespace {

std::string check_line()
{
    return said(Run::tr("is data coming in, is the sensing line on the tee, does the plug sit tight?"));
}

RunStep confirm(std::string place, std::string sentence, std::string confirms, Deed deed = Deed::nothing)
{
    RunStep step;
    step.kind = StepKind::confirm;
    step.place = std::move(place);
    step.sentence = std::move(sentence);
    step.waits_for = said(Run::tr("your word"));
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
    step.waits_for = said(Run::tr("five quiet seconds"));
    step.check = said(Run::tr("is the line off the tee and open, does it hang still, has the instrument warmed up?"));
    return step;
}

RunStep plug_step(const Preset& preset)
{
    RunStep step;
    step.kind = StepKind::plug;
    step.place = "Block";
    step.deed = Deed::plug_and_hold;
    step.preset = preset.name;
    step.sentence =
        said(Run::tr("Put the sensing line back on the tee, shut the hose end with the plug, set the unit to "
                     "manual and preset '%1', and hold insufflation for 3 s.")
                 .arg(quoted(preset.name)));
    step.waits_for = said(Run::tr("pressure: hold insufflation"));
    step.check = check_line();
    step.confirms = "outlet-blocked";
    return step;
}

RunStep manual_step(const Preset& preset)
{
    RunStep step;
    step.kind = StepKind::manual;
    step.place = "Manual";
    step.preset = preset.name;
    step.sentence = said(Run::tr("Hold each phase for 3 s and let go. Read what the unit displays while you hold."));
    step.waits_for = said(Run::tr("the phase that is asked for"));
    step.check = check_line();
    step.asked = {Step::insufflation, Step::exsufflation, Step::insufflation, Step::exsufflation};
    return step;
}

RunStep automatic_step(const Preset& preset)
{
    RunStep step;
    step.kind = StepKind::automatic;
    step.place = "Automatic";
    step.preset = preset.name;
    step.sentence = said(Run::tr("Start automatic mode, preset '%1', trigger off.").arg(quoted(preset.name)));
    step.waits_for = said(Run::tr("cycles"));
    step.check =
        said(Run::tr("is the unit in automatic mode, is the breath trigger off, has its programmed series ended?"));
    return step;
}

RunStep next_preset_step(const Preset& preset)
{
    RunStep step;
    step.kind = StepKind::stand_still;
    step.place = "Automatic";
    step.deed = Deed::select_preset;
    step.preset = preset.name;
    step.sentence = said(Run::tr("Stop the unit and select preset '%1' (%2). Leave the plug in.")
                             .arg(quoted(preset.name), QString::fromStdString(in_one_line(preset, false))));
    step.waits_for = said(Run::tr("the unit to stop cycling"));
    step.check = said(Run::tr("is the unit still cycling?"));
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

void append_making_safe(std::vector<std::string>& list)
{
    list.insert(list.end(), {said(Run::tr("therapy stopped: the unit out of manual and automatic")),
                             said(Run::tr("plug out of the hose end, facing away from it")),
                             said(Run::tr("tee and sensing line off"))});
}

void append_holding(std::vector<std::string>& list, const WorkOrder& order)
{
    list.insert(list.end(),
                {said(Run::tr("settings read from the unit and written down; nothing on it is changed any more")),
                 said(Run::tr("unit switched off, mains lead out")),
                 said(Run::tr("labelled 'out of use', in the way of this place")),
                 said(Run::tr("kept where nobody takes it back into use"))});
    list.push_back(order.contact.empty()
                       ? said(Run::tr("a replacement arranged where a person depends on it; the person responsible "
                                      "informed, as local rules say"))
                       : said(Run::tr("a replacement arranged where a person depends on it; the person responsible "
                                      "informed, as local rules say: %1")
                                  .arg(QString::fromStdString(order.contact))));
}

void append_returning(std::vector<std::string>& list, const WorkOrder& order)
{
    if (has_trigger(order)) {
        list.push_back(said(Run::tr("breath trigger: on again where it was on when found")));
    } else {
        list.push_back(said(Run::tr("breath trigger: as found")));
    }
    for (const auto& preset : order.presets) {
        list.push_back(said(Run::tr("preset '%1': %2").arg(quoted(preset.name), quoted(in_one_line(preset)))));
    }
    list.insert(list.end(), {said(Run::tr("flow, oscillation and programmed series: as found")),
                             said(Run::tr("mode: as found")), said(Run::tr("alarms: on as found"))});
}

void append_release_of(std::vector<std::string>& list, const WorkOrder& order)
{
    switch (order.occasion) {
    case verification::Occasion::home_visit:
        list.insert(list.end(), {said(Run::tr("the person's own hose and a fresh filter fitted")),
                                 said(Run::tr("mains lead in, unit switched on"))});
        return;
    case verification::Occasion::periodic:
        list.push_back(said(Run::tr("test hose off, a fresh filter fitted")));
        return;
    case verification::Occasion::pre_delivery:
        list.push_back(
            said(Run::tr("test hose off, a fresh filter and the parts that are delivered with it beside it")));
        return;
    }
}

/// What becomes of a unit that is in order.
void append_release(std::vector<std::string>& list, const WorkOrder& order)
{
    append_release_of(list, order);
    list.push_back(said(Run::tr("from here on it may be connected to a person again, as those responsible for the "
                                "therapy say")));
}

void append_keeping_back(std::vector<std::string>& list, const WorkOrder& order)
{
    list.push_back(said(Run::tr("not given out: labelled as not released, kept apart until it is adjusted and checked "
                                "again")));
    if (order.occasion == verification::Occasion::home_visit) {
        const auto whom =
            order.contact.empty() ? said(Run::tr("whoever is responsible, by local rules")) : order.contact;
        list.push_back(said(Run::tr("a person depends on it: told now, and what is used meanwhile agreed with %1")
                                .arg(QString::fromStdString(whom))));
    }
    list.push_back(said(Run::tr("connected to nobody before those responsible for the therapy say so")));
}

using verification::ProcedureStep;

RunStep asked_step(StepKind kind, const ProcedureStep& source, const std::string& place)
{
    RunStep step;
    step.kind = kind;
    step.place = place;
    step.sentence =
        source.say.empty() ? said(Run::tr("Look at this: %1.").arg(quoted(source.item))) : procedure_words(source.say);
    step.waits_for = said(Run::tr("your word"));
    step.source = source;
    return step;
}

RunStep rest_step(const ProcedureStep& source, const std::string& preset)
{
    RunStep step;
    step.kind = StepKind::stand_still;
    step.place = "Automatic";
    step.deed = Deed::stop_unit;
    step.preset = preset;
    step.sentence = said(Run::tr("Stop the unit and let it rest: %1 s.").arg(session::shown(source.seconds, 0)));
    step.waits_for = said(Run::tr("the unit to stand still"));
    step.check = said(Run::tr("is the unit still cycling?"));
    step.source = source;
    return step;
}

RunStep automatic_from(const Preset& preset, const ProcedureStep& source)
{
    auto step = automatic_step(preset);
    step.source = source;
    return step;
}

/// Makes the steps of a run from those of a procedure.
class Steps {
public:
    explicit Steps(const WorkOrder& order) : order_(order) {}

    void add(const ProcedureStep& step, const Preset& preset)
    {
        switch (step.kind) {
        case ProcedureStep::Kind::nobody_connected:
            return put(confirm(
                "Order",
                said(Run::tr("Take the hose off the person. Nobody connects it again until this program says so.")),
                "no-patient-connected", Deed::hose_off));
        case ProcedureStep::Kind::settings_found:
            return put(confirm(
                "Order",
                said(Run::tr("Copy the settings as found from the unit's screen; then switch the breath trigger off.")),
                "trigger-off"));
        case ProcedureStep::Kind::confirm:
            put(confirm(kChecks, procedure_words(step.say), {}));
            steps_.back().source = step;
            return;
        case ProcedureStep::Kind::check:
            return put(asked_step(StepKind::check, step, kChecks));
        case ProcedureStep::Kind::value:
            return put(asked_step(StepKind::value, step, kChecks));
        case ProcedureStep::Kind::zero:
            return add_zero();
        case ProcedureStep::Kind::plug:
            return put(plug_step(preset));
        case ProcedureStep::Kind::each_preset:
            return add_presets(step);
        case ProcedureStep::Kind::manual:
            return put(manual_step(preset));
        case ProcedureStep::Kind::automatic:
            power_from(step.power);
            return put(automatic_from(preset, step));
        case ProcedureStep::Kind::rest:
            return put(rest_step(step, preset.name));
        case ProcedureStep::Kind::ladder:
            power_from("mains");
            if (std::exchange(orifice_in_, false)) {
                put(plug_back_step(order_));
            }
            for (auto& one : ladder_steps(step, order_)) {
                put(std::move(one));
            }
            return;
        case ProcedureStep::Kind::instrument_check:
            return put(gauge_step(step));
        case ProcedureStep::Kind::leak_test:
            return put(leak_step());
        case ProcedureStep::Kind::strength:
            power_from("mains");
            orifice_in_ = true;
            return put(strength_step(step, order_));
        case ProcedureStep::Kind::zero_again:
            return add_zero_again();
        case ProcedureStep::Kind::hand_back:
            put(confirm("Hand back", hand_back_sentence({}), {}, Deed::make_safe));
            steps_.back().kind = StepKind::hand_back;
            return;
        }
    }
    [[nodiscard]] std::vector<RunStep> take() { return std::move(steps_); }

private:
    void put(RunStep step) { steps_.push_back(std::move(step)); }
    /// Where the run is, but for what is asked in between.
    [[nodiscard]] std::string place() const
    {
        const auto last =
            std::find_if(steps_.rbegin(), steps_.rend(), [](const RunStep& step) { return step.place != kChecks; });
        return last == steps_.rend() ? "Order" : last->place;
    }

    void add_zero()
    {
        put(confirm("Instrument",
                    said(Run::tr("Take the sensing line off the tee and leave it open to air. Switching the "
                                 "unit off is not enough.")),
                    {}, Deed::open_line));
        put(zero_step(StepKind::zero_before, "Zero",
                      said(Run::tr("Reading zero: leave the line open and hold it still."))));
    }

    /// The lead is pulled or put in by a person, who says so: the record goes by it.
    void power_from(const std::string& power)
    {
        if (power.empty() || power == power_) {
            return;
        }
        power_ = power;
        auto step =
            confirm(place(),
                    power == "battery" ? said(Run::tr("Take the mains lead out: the unit runs on its battery now."))
                                       : said(Run::tr("Put the mains lead in again: the unit runs on mains now.")),
                    {});
        step.source.power = power;
        put(std::move(step));
    }

    void add_zero_again()
    {
        power_from("mains");
        put(confirm("Zero again",
                    said(Run::tr("Switch the unit off, face away from the hose end, take the plug out, take the "
                                 "sensing line off the tee and leave it open.")),
                    {}, Deed::open_line));
        put(zero_step(StepKind::zero_after, "Zero again", said(Run::tr("Reading zero again: leave the line open."))));
    }

    void add_presets(const ProcedureStep& step)
    {
        for (std::size_t i = 0; i < order_.presets.size(); ++i) {
            if (i > 0) {
                power_from("mains");
                put(next_preset_step(order_.presets[i]));
            }
            for (auto inner : step.steps) {
                if (!inner.item.empty() && order_.presets.size() > 1) {
                    inner.item += ", preset " + order_.presets[i].name;
                }
                add(inner, order_.presets[i]);
            }
        }
    }

    const WorkOrder& order_;
    std::vector<RunStep> steps_;
    std::string power_ = "mains"; ///< as it was put last
    bool orifice_in_ = false;
};

/// As it stands in the record: English, with a point.
std::string limits_in_words(const ProcedureStep& step)
{
    if (step.low && step.high) {
        return "limits " + number_text(*step.low) + " to " + number_text(*step.high) + ", " + step.basis;
    }
    if (step.low || step.high) {
        return (step.low ? "at least " + number_text(*step.low) : "at most " + number_text(*step.high)) + ", " +
               step.basis;
    }
    return "no limit";
}

} // namespace

std::vector<RunStep> run_steps(const verification::Procedure& procedure, const WorkOrder& order)
{
    Steps steps(order);
    for (const auto& step : procedure.steps) {
        steps.add(step, order.presets.front());
    }
    return steps.take();
}

std::vector<RunStep> guided_run(const WorkOrder& order)
{
    return run_steps(records::load_procedure("guided").meaning, order);
}

std::string expected_of(const ProcedureStep& step)
{
    const auto limits = step.low || step.high ? limits_in_words(step) : std::string();
    return step.unit + (step.unit.empty() || limits.empty() ? "" : ", ") + limits;
}

verification::ChecklistItem item_of(const ProcedureStep& step, double value)
{
    using Answer = verification::ChecklistItem::Outcome;
    const bool kept = value >= step.low.value_or(value) && value <= step.high.value_or(value);
    return {step.item, kept ? Answer::ok : Answer::not_ok,
            number_text(value) + (step.unit.empty() ? "" : " " + step.unit) + " (" + limits_in_words(step) + ")"};
}

std::string hand_back_sentence(const HandBack& what)
{
    if (what.held) {
        return said(Run::tr("Make the unit safe and hold it back: it does not go back to anybody."));
    }
    if (what.failed) {
        return said(Run::tr("Do not give the unit out: set it back, label it as not released, keep it apart."));
    }
    return what.person
               ? said(Run::tr("See to the person first; then make the unit safe and give it back as it must be."))
               : said(Run::tr("Give the unit back as it must be; read each item back from the unit."));
}

std::vector<std::string> hand_back_list(const WorkOrder& order, const HandBack& what)
{
    std::vector<std::string> list;
    if (what.person) {
        list.push_back(said(
            Run::tr("the person: hose off, looked to first; somebody stays with them, and help is called if needed")));
    }
    if (!what.safe) {
        append_making_safe(list);
    }
    if (what.held) {
        append_holding(list, order);
    } else {
        if (what.mains_out) {
            list.push_back(said(Run::tr("mains lead in again")));
        }
        append_returning(list, order);
        what.failed ? append_keeping_back(list, order) : append_release(list, order);
    }
    if (what.person && !what.held) {
        list.push_back(
            said(Run::tr("the check is run again with nobody connected: this one says nothing of the unit")));
    }
    return list;
}

std::vector<std::string> cautions_before_run(const WorkOrder& order)
{
    std::vector<std::string> cautions{
        said(Run::tr("The hose is off the person and stays off until you are told. If the person may need the unit "
                     "now: stop here "
                     "and give it back.")),
        said(Run::tr("This is test equipment, not a medical device: no diagnosis, no monitoring. The prescriber sets "
                     "the therapy, "
                     "licensed staff apply it; the manufacturer's service documentation and local rules come first.")),
        said(Run::tr("A returned unit is contaminated until it is cleaned. Put a filter between unit and sensor, use a "
                     "clean test "
                     "hose, do not open the case. Electrical safety is tested by qualified people.")),
        said(Run::tr("Only pressures and times at a closed hose end are tested here."))};
    if (!order.contact.empty()) {
        cautions.push_back(said(
            Run::tr("If somebody is left without a working unit: %1.").arg(QString::fromStdString(order.contact))));
    }
    return cautions;
}

std::string in_one_line(const Preset& preset, bool with_trigger)
{
    auto line =
        Run::tr("%1 / %2 cmH2O, %3 / %4 / %5 s")
            .arg(shown_short_signed(preset.insufflation.pressure_cmH2O),
                 shown_short_signed(preset.exsufflation.pressure_cmH2O), shown_short(preset.insufflation.duration_s),
                 shown_short(preset.exsufflation.duration_s), shown_short(preset.pause.duration_s));
    if (preset.flow == verification::Flow::reduced) {
        line += Run::tr(", reduced flow");
    }
    if (preset.oscillation) {
        line += Run::tr(", oscillation %1 Hz").arg(shown_short(preset.oscillation->frequency_hz));
    }
    if (with_trigger && preset.series) {
        line += QStringLiteral(", ") + series_words(preset, ResultWords(Reader::screen));
    }
    if (with_trigger && preset.trigger_on) {
        line += *preset.trigger_on ? Run::tr(", trigger on") : Run::tr(", trigger off");
    }
    return said(line);
}

} // namespace zeroline::session
