#pragma once

#include "gui/register/database.hpp"

#include <string>
#include <vector>

namespace zeroline::unit_register {

/// Brings the database to this program's form, one numbered step after the other, each whole or not at all; a database
/// of that form is only read. `now` is written beside each. Throws trace::InputError where a newer program made it.
/// `until`: the number of the last step, so that a test can make a register of an older program.
[[nodiscard]] std::size_t newest_form();
void migrate(const Database& database, const std::string& now, std::size_t until = newest_form());

/// The tables whose rows make the register, each after those that it refers to.
[[nodiscard]] const std::vector<std::string>& tables();

/// This moment, with its offset from UTC (RFC 3339).
[[nodiscard]] std::string moment_now();

} // namespace zeroline::unit_register
