#pragma once

#include "analysis/verification/measured_trace.hpp"

#include <string>
#include <vector>

namespace zeroline::verification {

/// What this record says nothing about, in the order in which it is printed (docs/method.md, above every result): what
/// a closed hose end cannot show, less what the checklist says was done, and the evidence that the run log left out.
[[nodiscard]] std::vector<std::string> not_tested(const MeasuredTrace& measured_trace);

} // namespace zeroline::verification
