#pragma once

#include "analysis/verification/procedure.hpp"
#include "analysis/verification/run_log.hpp"
#include "analysis/verification/work_order.hpp"

#include <optional>
#include <string>
#include <vector>

namespace zeroline::session {

/// How a step moves on.
enum class StepKind {
    confirm,     ///< a person says so
    check,       ///< a person says whether an item of the checklist is in order
    value,       ///< a person types what was measured with something else
    gauge,       ///< a person types what a second gauge shows, point by point
    leak,        ///< a pressure that was shut in was followed for long enough
    zero_before, ///< five quiet seconds at the open port
    plug,        ///< pressure builds up
    manual,      ///< each asked phase was seen
    automatic,   ///< enough cycles were judged
    ladder,      ///< the same, at settings that were dialled in
    strength,    ///< enough cycles with air flowing out
    stand_still, ///< the unit no longer cycles, and has rested for as long as it has to
    zero_after,  ///< five quiet seconds, well after the last transition
    hand_back    ///< the unit is given back; a person says so
};

/// Whether a step asks for an answer beside the run.
[[nodiscard]] constexpr bool asks(StepKind kind)
{
    return kind == StepKind::check || kind == StepKind::value || kind == StepKind::gauge;
}

/// Whether the unit cycles by itself in it.
[[nodiscard]] constexpr bool cycles_by_itself(StepKind kind)
{
    return kind == StepKind::automatic || kind == StepKind::ladder;
}

/// The place of what a procedure asks about, wherever in the run that is.
inline constexpr const char* kChecks = "Checks";

/// What the hand at hose and unit is to do.
enum class Deed {
    nothing,
    hose_off,        ///< off the person
    open_line,       ///< unit off, plug out, sensing line off the tee and open
    plug_and_hold,   ///< line on the tee, plug in, the first phase held for 3 s
    insufflate,      ///< hold insufflation for 3 s, let go
    exsufflate,      ///< hold exsufflation for 3 s, let go
    let_go,          ///< and wait for zero
    start_automatic, ///< the preset of the step, trigger off
    stop_unit,
    select_preset, ///< stop, then select the preset of the step; the plug stays in
    dial,          ///< stop, dial the settings of the step in, start automatic mode
    dial_back,     ///< stop, dial the settings of the step in
    press_syringe, ///< no unit: press with a syringe to where the step says, and shut it off
    fit_orifice,   ///< stop, the orifice of the step in place of the plug, start automatic mode
    put_plug_back, ///< stop, the plug in again
    make_safe      ///< unit out of therapy, plug out, line off the tee
};

/// One step of a run. Texts are English source strings; a window translates them.
struct RunStep {
    StepKind kind = StepKind::confirm;
    std::string place;                     ///< where the run is: "Order", "Instrument", "Zero", "Block", "Manual", ...
    std::string sentence;                  ///< what to do, one sentence
    std::string waits_for;                 ///< what moves the run on
    std::string check;                     ///< what to look at when it waits too long
    Deed deed = Deed::nothing;             ///< where the pressure does not decide it (manual, automatic)
    std::string preset;                    ///< empty: none in particular
    std::string confirms;                  ///< code written under `confirmed` of the run log
    std::vector<verification::Step> asked; ///< manual: the phases to hold, in order
    /// Ladder: what the unit is set to. After it: what it is dialled back to.
    std::optional<verification::Settings> dialled;
    std::optional<verification::Orifice> orifice; ///< strength
    verification::ProcedureStep source; ///< check, value: item, unit and limits; rest: seconds; automatic: power
};

/// The steps of a procedure for an order: what is done for each preset stands there for every one of them.
[[nodiscard]] std::vector<RunStep> run_steps(const verification::Procedure& procedure,
                                             const verification::WorkOrder& order);
/// Those of the procedure `guided`, which is run where none is chosen.
[[nodiscard]] std::vector<RunStep> guided_run(const verification::WorkOrder& order);

/// A value that was measured with something else, as an item of the checklist: not in order outside its limits. The
/// remark says value, unit, limits and where they come from.
[[nodiscard]] verification::ChecklistItem item_of(const verification::ProcedureStep& step, double value);

/// Unit and limits of a value that is asked for, in one line: "mA, at most 0.5, rule 7"; empty where it has neither.
[[nodiscard]] std::string expected_of(const verification::ProcedureStep& step);

/// What the end of a run asks for.
struct HandBack {
    bool safe = false;      ///< 'Zero again' was done: therapy stopped, plug out, line off the tee
    bool person = false;    ///< somebody may be connected: they come first
    bool held = false;      ///< something critical lies with the unit: it does not go back to use
    bool mains_out = false; ///< the mains lead was taken out for a run on battery
    bool failed = false;    ///< a limit was not kept: it is not given out before it is adjusted and checked again
};

/// The sentence above the list.
[[nodiscard]] std::string hand_back_sentence(const HandBack& what);
/// What is done at the end of a run, from every step, and read back: one line an item. It begins with what makes the
/// unit safe where that was not done; a unit that is held is not returned to service.
[[nodiscard]] std::vector<std::string> hand_back_list(const verification::WorkOrder& order, const HandBack& what);
/// The item of the checklist under which a record says that a unit was held.
inline constexpr const char* kHeldItem = "made safe and kept out of use";

/// What a person hears before a run (docs/guide.md): each a sentence.
[[nodiscard]] std::vector<std::string> cautions_before_run(const verification::WorkOrder& order);

/// "+40 / -40 cmH2O, 1.5 / 1.5 / 2 s": a preset in one line, and whether the person uses it with the trigger on: not so
/// where it is dialled in for a run, which needs the trigger off.
[[nodiscard]] std::string in_one_line(const verification::Preset& preset, bool with_trigger = true);

} // namespace zeroline::session
