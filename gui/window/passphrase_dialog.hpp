#pragma once

#include "gui/records/signing_key.hpp"

class QWidget;

namespace zeroline::window {

/// Asks for the passphrase of a key above `parent`, without showing it.
[[nodiscard]] records::AskPassphrase ask_above(QWidget* parent);

} // namespace zeroline::window
