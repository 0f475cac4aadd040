#pragma once

#include "analysis/verification/findings/finding_basis.hpp"

namespace zeroline::verification {

/// The unit cannot have been at work in the span: every level stays far below what it is set to.
[[nodiscard]] bool nothing_comes_near(const MeasuredTrace& measured_trace, const MeasuredSpan& span);

/// Where a hand was to toggle the unit, nothing came near what is set, and the pressure swings as a person's breath
/// does: up and down without the quick edges and the long rests of a hold. Its signs are then nobody's.
[[nodiscard]] bool breathes_by_hand(const FindingBasis& basis, const MeasuredSpan& span);

} // namespace zeroline::verification
