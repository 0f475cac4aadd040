#pragma once

#include "gui/register/database.hpp"

#include <filesystem>
#include <string_view>
#include <vector>

namespace zeroline::unit_register {

/// Units from a table of comma- or semicolon-separated values (RFC 4180, UTF-8 with or without a mark in front): a
/// heading with `asset`, and `serial` and `model` if there are any, in any order; other columns are left aside. An
/// apostrophe that keeps a spreadsheet from computing a text is taken off. Returns objects for
/// UnitRegister::add_units(). Throws trace::InputError naming the line.
[[nodiscard]] std::vector<Value> units_in_csv(std::string_view text);

/// units_in_csv() of a file, errors name it.
[[nodiscard]] std::vector<Value> units_from(const std::filesystem::path& file);

} // namespace zeroline::unit_register
