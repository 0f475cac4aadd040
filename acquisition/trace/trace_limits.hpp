#pragma once

#include <cstdint>

namespace zeroline::trace {

/// What a trace may hold. Who writes a trace keeps within these, who reads one refuses what does not.
/// No pressure in any unit and no time comes near; they keep every later square and sum finite.
inline constexpr double kLargestPressure = 1e9;
inline constexpr double kLargestTime_s = 1e13;

/// Counts beyond this would lose their last digit in a double.
inline constexpr std::int64_t kLargestCount = std::int64_t{1} << 53U;

} // namespace zeroline::trace
