#pragma once

#include "gui/session/run_steps.hpp"

#include "analysis/signal/phases.hpp"

#include <cstddef>
#include <optional>
#include <string>

namespace zeroline::session {

/// Something that happened, for a line of text or a sound.
struct News {
    enum class Kind { step, seen, caution, critical, end };
    Kind kind = Kind::step;
    std::string text;
    std::string place; ///< where the run was
};

/// Blocked running: how long the unit has cycled, and the rest that is due.
struct DutyClock {
    double cycled_s = 0.0; ///< since it last rested for long enough
    double limit_s = 0.0;
    std::optional<double> rest_left_s; ///< it rests now
};

/// How long a phase is held by hand.
inline constexpr double kHold_s = 3.0;

/// What a screen shows of a run at this moment.
struct RunView {
    StepKind step = StepKind::confirm;
    std::size_t number = 0; ///< of the step, from 0
    std::size_t steps = 0;
    std::string place, sentence, waits_for, preset;
    std::string check;                             ///< not empty: it waits for long, this may be wrong
    std::optional<double> progress;                ///< 0 to 1
    Deed deed = Deed::nothing;                     ///< what the hand is to do now
    std::optional<double> held_s;                  ///< manual: how long the phase that is asked for is held now
    std::size_t holds = 0;                         ///< manual, leak, gauge: seen so far
    std::optional<double> press_cmH2O;             ///< leak, gauge: where the syringe presses to
    std::optional<signal::PhaseKind> phase;        ///< what the pressure is recognised as at this moment
    double phase_from_s = 0.0;                     ///< since when, on the axis of the trace
    std::optional<DutyClock> duty;                 ///< automatic, and a rest that a procedure asks for
    std::optional<verification::Settings> dialled; ///< ladder: what the unit is to be set to
    std::optional<double> orifice_mm;              ///< strength: what takes the place of the plug
    std::string item;                              ///< check, value, gauge: what is asked about; a window translates it
    std::string expects;                           ///< value, gauge: unit and limits
    bool can_confirm = false;                      ///< a word moves it on
    bool can_go_on = false;                        ///< go on in spite of what is wrong; the record says so
    bool can_skip = false;                         ///< the step may be left out, with a reason
    bool line_lost = false;
    bool can_take_back = false; ///< given back, and the plug still in: the run may go on
    bool asks_hose_end = false; ///< confirm: nothing soft, plug seen; go on: nobody can say so
};

} // namespace zeroline::session
