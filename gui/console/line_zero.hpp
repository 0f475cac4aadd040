#pragma once

#include "gui/console/feed_loop.hpp"
#include "gui/session/zero_reading.hpp"

#include <optional>
#include <string>

namespace zeroline::console {

/// Reads the zero of an open line, for the commands that look at the set-up by itself: five quiet seconds. None, and
/// why in one line: the instrument is silent or gone, or somebody interrupted.
[[nodiscard]] std::optional<session::QuietStretch> zero_of_line(FeedLoop& loop, const session::LiveFeed& feed,
                                                                const std::string& port, Terminal& terminal);

} // namespace zeroline::console
