#pragma once

#include "analysis/verification/assessment.hpp"

#include <string>

namespace zeroline::console {

/// The result for a person: what was not tested, the table of the numbers, the verdict in words with its reasons,
/// findings. Ends with a line end.
[[nodiscard]] std::string result_text(const verification::WorkOrder& order, const verification::Assessment& assessment);

/// "fail        WO-2041  RC-0117  exsufflation pressure -33.1 of -40": a record in one line, without a line end.
[[nodiscard]] std::string one_line(const verification::WorkOrder& order, const verification::Assessment& assessment);

} // namespace zeroline::console
