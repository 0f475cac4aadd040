#pragma once

#include "analysis/verification/measured_trace.hpp"

#include <optional>

namespace zeroline::verification {

/// Index (Cycle::index) of the one judged cycle that lies outside limits while all others of its preset lie within and
/// agree with each other: a hose that was touched looks so. None where a second is outside, where it is beyond its
/// limit away from zero by more than its uncertainty or holds a peak too long, where a valve moves irregularly, or
/// where an earlier attempt of the work order has left a cycle out already (docs/method.md, judgement). Needs filled
/// quantities.
[[nodiscard]] std::optional<int> unlike_cycle(const MeasuredTrace& measured_trace);

/// Whether a cycle was left out so.
[[nodiscard]] bool has_unlike_cycle(const MeasuredTrace& measured_trace);

} // namespace zeroline::verification
