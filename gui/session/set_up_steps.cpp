#include "gui/session/set_up_steps.hpp"

#include "analysis/verification/instrument_check.hpp"
#include "gui/session/run_words.hpp"
#include "gui/session/shown_number.hpp"

namespace zeroline::session {

using verification::ProcedureStep;

RunStep gauge_step(const ProcedureStep& source)
{
    RunStep step;
    step.kind = StepKind::gauge;
    step.place = "Instrument";
    step.deed = Deed::press_syringe;
    step.sentence =
        said(Run::tr("Without the unit: instrument and second gauge on one tee, with a syringe. What the gauge "
                     "shows is typed while the pressure is held."));
    step.waits_for = said(Run::tr("what the second gauge shows"));
    step.source = source;
    step.source.item = verification::kInstrumentItem;
    return step;
}

RunStep leak_step()
{
    RunStep step;
    step.kind = StepKind::leak;
    step.place = "Leak test";
    step.deed = Deed::press_syringe;
    step.sentence =
        said(Run::tr("Leak test of the set-up, without the unit: the plug in the hose end, the line on the tee, "
                     "a syringe with a tap where the unit would be."));
    step.waits_for = said(Run::tr("a pressure that is shut in"));
    step.check = said(Run::tr("is the syringe large enough (26 mL), is its tap shut, is the line on the tee?"));
    return step;
}

RunStep strength_step(const ProcedureStep& source, const verification::WorkOrder& order)
{
    RunStep step;
    step.kind = StepKind::strength;
    step.place = "Strength";
    step.deed = Deed::fit_orifice;
    step.preset = order.presets.back().name;
    step.sentence =
        said(Run::tr("Stop the unit. Face away from the hose end, take the plug out and put the orifice '%1' "
                     "(%2 mm) in its place. Then start automatic mode, preset '%3', trigger off.")
                 .arg(session::quoted(source.orifice), shown_short(source.diameter_mm), session::quoted(step.preset)));
    step.waits_for = said(Run::tr("cycles"));
    step.check = said(Run::tr("is the unit in automatic mode, is the breath trigger off, is the line on the tee?"));
    step.source = source;
    step.orifice = verification::Orifice{source.orifice, source.diameter_mm};
    return step;
}

RunStep plug_back_step(const verification::WorkOrder& order)
{
    RunStep step;
    step.place = "Strength";
    step.deed = Deed::put_plug_back;
    step.preset = order.presets.back().name;
    step.sentence = said(Run::tr("Stop the unit. Take the orifice out and shut the hose end with the plug again."));
    step.waits_for = said(Run::tr("your word"));
    return step;
}

} // namespace zeroline::session
