#pragma once

#include "gui/console/terminal.hpp"
#include "gui/console/verify_options.hpp"

namespace zeroline::console {

/// Asks the person at the terminal, before anything is opened, for what sealing needs and nobody has said yet, and puts
/// the answers where they belong: into the order, the bench, the options. What is left open ("-"), and all of it with
/// --yes, is said: such a run ends in an unfinished record.
void ask_for_sealing_needs(VerifyOptions& options, RunInputs& inputs, Terminal& terminal);

} // namespace zeroline::console
