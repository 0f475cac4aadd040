#pragma once

#include "gui/register/database.hpp"

#include <string>
#include <vector>

namespace zeroline::unit_register {

// How a unit stands is kept in its own row: its newest record and the newest that was captured here, the day on which
// it falls due, its state, how many records it has, and the words it is searched by. So a list of thousands of units
// reads none of their verifications. Verifications alone decide it: it is taken from them anew whenever one is
// registered, and `register check` proves it.

/// Of one unit; within the step that changed something of it.
void keep_standing(const Database& database, const std::string& asset);
/// Of every unit.
void keep_every_standing(const Database& database);
/// Assets of those whose row says something else than their verifications.
[[nodiscard]] std::vector<std::string> with_another_standing(const Database& database);

} // namespace zeroline::unit_register
