#pragma once

#include "analysis/signal/phases.hpp"

namespace zeroline::verification {

/// Time constant of a first-order lag with this 10 % to 90 % response (instrument file), s.
[[nodiscard]] double lag_s(double response_ms) noexcept;

/// How much farther than its measured peak the pressure of a phase may have gone before sensor and sensing line, cmH2O,
/// never negative. A first-order lag shows p - lag x slope; turned round, the readings tell what was there.
[[nodiscard]] double hidden_peak_cmH2O(const signal::Samples& samples, const signal::Phase& phase, double lag_s);

} // namespace zeroline::verification
