#pragma once

#include "gui/console/terminal.hpp"
#include "gui/records/signing_key.hpp"

#include <string>

namespace zeroline::console {

/// Asks the person at the terminal for the passphrase of a key, without showing it. Neither arguments nor environment
/// can hold one: both can be read by other programs. Outlives neither `terminal` nor the program's main part.
[[nodiscard]] records::AskPassphrase ask_at(Terminal& terminal);

/// A new passphrase, typed twice; empty: none is wanted. Throws trace::InputError where both differ or nobody can be
/// asked.
[[nodiscard]] std::string new_passphrase(Terminal& terminal);

} // namespace zeroline::console
