#pragma once

#include <QString>

#include <optional>

namespace zeroline::session {

/// Numbers for the screen, in the decimal mark of the default locale; a terminal and every file keep to number_text.
[[nodiscard]] QString shown(double value, int decimals);
/// With its sign, also a plus; never "-0.0".
[[nodiscard]] QString shown_signed(double value, int decimals);
/// As many decimals as the value has, at most four; for what a person typed or prescribed.
[[nodiscard]] QString shown_short(double value);
[[nodiscard]] QString shown_short_signed(double value);

} // namespace zeroline::session
