#pragma once

#include "gui/console/line_options.hpp"
#include "gui/console/terminal.hpp"
#include "gui/session/live_feed.hpp"
#include "gui/session/zero_reading.hpp"

#include <optional>

namespace zeroline::console {

/// Reads the zero of an open line, for the commands that look at the set-up by itself: five quiet seconds. None, and
/// why in one line: the instrument is silent or gone, or somebody interrupted.
[[nodiscard]] std::optional<session::QuietStretch> zero_of_line(session::LiveFeed& feed, const LineOptions& options,
                                                                Terminal& terminal);

} // namespace zeroline::console
