#pragma once

#include "acquisition/serial/find.hpp"

#include <string>

namespace zeroline::console {

/// What a fit reads, in one line for a person: the number with its unit, and whether the line states that unit.
[[nodiscard]] std::string reading_of(const serial::Fit& fit);

/// An instrument file that reads as it stands: port, language and rate of a fit. What no line can tell, a person fills
/// in; its calibration is long over, so that nothing is stated to conform before. `known`: the text of an instrument
/// file whose other keys are kept, or empty.
[[nodiscard]] std::string instrument_file_of(const serial::Fit& fit, const std::string& known);

} // namespace zeroline::console
