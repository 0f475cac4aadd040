#pragma once

#include <string>

namespace zeroline::session {

/// A number for a person, whatever the locale: shortest text that reads back ("1.5", "-40").
[[nodiscard]] std::string number_text(double value);

/// The same with its sign in front, also a plus ("+40"; zero has none).
[[nodiscard]] std::string signed_text(double value);

/// With so many decimals; never "-0.0".
[[nodiscard]] std::string fixed_text(double value, int decimals);
[[nodiscard]] std::string signed_fixed_text(double value, int decimals);

} // namespace zeroline::session
