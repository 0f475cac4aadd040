#pragma once

namespace zeroline::verification {

/// Sampling rates below which figures are not given (docs/method.md, judgement): 100, 50 and 20 Hz with 2 % allowed.
inline constexpr double kRateForTransitions_hz = 98.0; ///< rise, swing, release, oscillation
inline constexpr double kRateForDurations_hz = 49.0;   ///< return to zero too
inline constexpr double kRateForLevels_hz = 19.5;

} // namespace zeroline::verification
