#pragma once

#include "gui/register/unit_drift.hpp"

#include <string>
#include <vector>

namespace zeroline::console {

/// Rows of a list for people, a line each, headings above. There must be one. `but`: columns that say the same in each
/// row, and are left out.
[[nodiscard]] std::string rows_as_table(const unit_register::Rows& rows, const std::vector<std::string>& but = {});
/// One row, a line a column.
[[nodiscard]] std::string row_as_lines(const unit_register::Rows& row);
/// Rows as CSV (RFC 4180). A text that a spreadsheet would take for a formula has a ' in front.
[[nodiscard]] std::string rows_as_csv(const unit_register::Rows& rows);

/// What drifts: a unit over its visits, or an instrument over its checks.
enum class Drifting { unit, instrument };
/// How it drifts, for people and as JSON.
[[nodiscard]] std::string drift_text(const unit_register::UnitDrift& drift, Drifting what);
[[nodiscard]] unit_register::Rows drift_tree(const unit_register::UnitDrift& drift);

} // namespace zeroline::console
