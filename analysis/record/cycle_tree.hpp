#pragma once

#include "analysis/verification/assessment.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::record {

/// One cycle of record.json. What could not be measured is null, and `null_because` beside it says why, key by key:
/// "cut", "manual", "sampling-rate", "never-returned" or "not-measurable".
[[nodiscard]] nlohmann::ordered_json tree_of_cycle(const verification::Cycle& cycle, double rate_hz);

/// The uncertainty budgets of a cycle's quantities, by name: value, contributions, what they come to.
[[nodiscard]] nlohmann::ordered_json budgets_of_cycle(const verification::Cycle& cycle);

} // namespace zeroline::record
