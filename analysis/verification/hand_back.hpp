#pragma once

#include "analysis/verification/assessment.hpp"

#include <vector>

namespace zeroline::verification {

/// What stands against handing the unit back: not confirmed as restored, or left otherwise than it was found and
/// otherwise than prescribed (docs/method.md, hand-back). Empty where nothing does, or nothing was written down.
[[nodiscard]] std::vector<Reason> hand_back_reasons(const Evidence& evidence);

} // namespace zeroline::verification
