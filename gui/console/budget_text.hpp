#pragma once

#include "analysis/verification/assessment.hpp"

#include <string>

namespace zeroline::console {

/// The uncertainty budget of each judgement's worst cycle: contributions, what they come to, coverage factor.
[[nodiscard]] std::string budget_text(const verification::Assessment& assessment);

} // namespace zeroline::console
