#pragma once

#include "analysis/verification/measured_trace.hpp"

#include <string>
#include <vector>

namespace zeroline::verification {

/// A stretch of the trace in which nothing can be measured; cycles that overlap it (open interval) are not judged.
struct Exclusion {
    std::string code; ///< "gap", "clipped", "stuck-reading", "plug-off"
    double from_s = 0.0;
    double to_s = 0.0;
};

/// All stretches in time order. Needs the samples, zero, spans with phases, and cycles; quantities are not
/// used. Thresholds and their reasons: docs/diagnosis.md. A plug-off reaches from the collapse to just before the next
/// whole cycle, or to the end of its span: in between nothing counts as missing.
[[nodiscard]] std::vector<Exclusion> exclusions(const MeasuredTrace& measured_trace);

} // namespace zeroline::verification
