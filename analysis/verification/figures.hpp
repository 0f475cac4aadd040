#pragma once

#include "analysis/metrology/decision.hpp"

#include <string>

namespace zeroline::verification {

/// A number as it stands in a sentence: at most three decimals, no trailing zeros, a point. Independent of the locale.
[[nodiscard]] std::string figure(double value);

/// "38 to 42 cmH2O", "at most 0.5 s", "at least 38 cmH2O".
[[nodiscard]] std::string words_of(const metrology::Limits& limits, const std::string& unit);

} // namespace zeroline::verification
