#pragma once

#include "gui/charts/picture.hpp"
#include "gui/session/ladder_view.hpp"

namespace zeroline::charts {

/// Error against setting: each setting with its U, and the straight line through them.
[[nodiscard]] Picture ladder_picture(const session::LadderView& ladder, const QString& set_title,
                                     const QString& error_title);

} // namespace zeroline::charts
