#pragma once

#include "analysis/verification/assessment.hpp"

#include <vector>

namespace zeroline::console {

/// Exit status of a command (docs/formats.md).
enum class ExitStatus { pass = 0, fail = 1, wrong_input = 2, incomplete = 3, conditional_pass = 4 };

[[nodiscard]] ExitStatus status_of(metrology::Outcome outcome);

/// Of an assessment: the worse of its two verdicts.
[[nodiscard]] ExitStatus status_of(const verification::Assessment& assessment);

/// Of several inputs: the first that occurs of 2, 1, 3, 4, 0.
[[nodiscard]] ExitStatus status_of(const std::vector<ExitStatus>& inputs);

} // namespace zeroline::console
