#pragma once

#include "analysis/verification/measured_trace.hpp"

#include <vector>

namespace zeroline::verification {

/// Everything the trace and the evidence say beside the numbers, in a stable order: critical first, then cautions, then
/// notes, each in the order of docs/diagnosis.md. Codes, thresholds and their reasons stand there.
[[nodiscard]] std::vector<Finding> find(const MeasuredTrace& measured_trace);

} // namespace zeroline::verification
