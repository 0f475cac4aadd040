#pragma once

#include "analysis/verification/assessment.hpp"

#include <string>

namespace zeroline::console {

/// The uncertainty budget behind each judged value, as a table: each contribution with its unit, distribution, divisor,
/// standard uncertainty, sensitivity, share of the result's variance and degrees of freedom; then what they come to,
/// and how the coverage factor came about.
[[nodiscard]] std::string budget_text(const verification::Assessment& assessment);

} // namespace zeroline::console
