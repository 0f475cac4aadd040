#pragma once

#include "analysis/verification/work_order.hpp"

namespace zeroline::session {

/// What a unit reads that is set as prescribed.
[[nodiscard]] verification::Settings as_prescribed(const verification::Preset& preset);

} // namespace zeroline::session
