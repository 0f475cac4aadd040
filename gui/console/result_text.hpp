#pragma once

#include "gui/console/exit_status.hpp"
#include "gui/session/result_view.hpp"

#include <cstddef>
#include <optional>
#include <string>

namespace zeroline::console {

/// A result for a terminal: what was not tested, the table of the numbers, the verdict in words with its reasons,
/// findings. Ends with a line end. Where the screen has `columns` letters a line, columns of the table that are needed
/// least give way, as they do in the window.
[[nodiscard]] std::string result_text(const session::ResultView& result,
                                      std::optional<std::size_t> columns = std::nullopt);

/// "fail              WO-2041  RC-0117": a record in one line, without a line end.
[[nodiscard]] std::string one_line(const session::ResultView& result);

/// Its exit status: the worse of its two verdicts.
[[nodiscard]] ExitStatus status_of(const session::ResultView& result);

} // namespace zeroline::console
