#pragma once

#include <string>

namespace zeroline::session {

/// What a step of a procedure says, in the language of the screen where it is a sentence of a shipped one.
[[nodiscard]] std::string procedure_words(const std::string& say);
[[nodiscard]] bool knows_procedure_words(const std::string& say);

} // namespace zeroline::session
