#pragma once

#include "gui/register/entry.hpp"

#include <string>
#include <vector>

namespace zeroline::unit_register {

class UnitRegister;

/// The files of a record that may be approved: instrument, bench, procedure.
[[nodiscard]] const std::vector<std::string>& approved_names();

/// What UnitRegister::approve() keeps of such a file: kind (its name in a record), name (what the file calls itself)
/// and the SHA-256 that it has in a record. Throws trace::InputError: another kind of file, or one that cannot be read.
[[nodiscard]] nlohmann::json approvable(const std::filesystem::path& file);

/// A line for each file of a record that is not an approved one. Of a kind of which none was ever approved, nothing is
/// said.
[[nodiscard]] std::vector<std::string> not_approved(const Entry& entry, const UnitRegister& units);

} // namespace zeroline::unit_register
