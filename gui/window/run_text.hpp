#pragma once

#include "gui/session/bench_session.hpp"
#include "gui/window/step_bar.hpp"

#include <QString>

namespace zeroline::window {

/// What to do now, with a word about the display while a phase is held.
[[nodiscard]] QString sentence_of(const session::RunView& view);
/// What the run waits for; in a hold, how long it has lasted.
[[nodiscard]] QString waits_text(const session::RunView& view);
/// Where a run is, as the bar of its steps names it.
[[nodiscard]] QString place_name(const std::string& place);
/// The button that goes on.
[[nodiscard]] QString go_on_text(const session::RunView& view);
/// The clock of blocked running, or what is left of a rest of `rest_s`; empty where there is none.
[[nodiscard]] QString duty_text(const session::RunView& view, double rest_s);

/// "WO-2041 · RC-0117 · day · prescribed +40 / -40 cmH2O, 1.5 / 1.5 / 2 s"
[[nodiscard]] QString run_header(const verification::WorkOrder& order, const std::string& preset);

/// The places of a run in order, each once and done where all its steps were, and the result at the end; and the one
/// where it is now. What a procedure asks about has a place wherever it is asked.
struct RunPlaces {
    QList<StepPlace> places;
    int now = -1;
};
[[nodiscard]] RunPlaces run_places(const session::BenchSession& session);

/// Instrument, port, rate, noise, losses, calibration due; trouble in front of everything.
[[nodiscard]] QString status_line(const session::BenchSession& session);

/// The prescription of a preset in one line, numbers in the locale.
[[nodiscard]] QString prescription_line(const verification::Preset& preset);

} // namespace zeroline::window
