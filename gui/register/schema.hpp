#pragma once

#include "gui/register/database.hpp"

namespace zeroline::unit_register {

/// Brings the database to this program's form, one numbered step after the other, each whole or not at all. `now` is
/// written beside each. Throws trace::InputError where a newer program made it.
void migrate(const Database& database, const std::string& now);

} // namespace zeroline::unit_register
