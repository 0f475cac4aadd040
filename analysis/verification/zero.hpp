#pragma once

#include "acquisition/trace/trace.hpp"
#include "analysis/verification/assessment.hpp"
#include "analysis/verification/run_log.hpp"

#include <cstddef>
#include <utility>

namespace zeroline::verification {

inline constexpr double kShortestZero_s =
    3.0; ///< an open-port reading shorter than this is none (docs/method.md, zero)

/// Samples [first, last) whose time lies in [from_s, to_s].
[[nodiscard]] std::pair<std::size_t, std::size_t> samples_between(const trace::Trace& trace, double from_s,
                                                                  double to_s);

/// Zero from the open-port spans: the last reading before the cycling begins and the first after it ends; readings that
/// are too short or hold no samples are none. Isolated spikes are left out.
[[nodiscard]] ZeroReadings read_zero(const trace::Trace& trace, const std::vector<Span>& spans);

} // namespace zeroline::verification
