#pragma once

#include "analysis/verification/work_order.hpp"
#include "gui/session/result_words.hpp"

#include <QString>

namespace zeroline::session {

/// "5 series of 5 breaths, 30 s rest between them: 4 min 5 s in all"; empty where no series is prescribed.
[[nodiscard]] QString series_words(const verification::Preset& preset, const ResultWords& words);

} // namespace zeroline::session
