#pragma once

#include "analysis/verification/run_log.hpp"

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace zeroline::records {

/// What the front panel of a simulated unit shows, as the virtual bench keeps it in a file (schema zeroline/panel/1).
struct Panel {
    std::map<std::string, verification::Settings> set; ///< by preset
    std::vector<verification::Displayed> displayed;    ///< in the order's order; `not_read` where nothing was shown yet
};

/// Reads a panel file for the presets of an order. Throws trace::InputError naming the file.
[[nodiscard]] Panel load_panel(const std::filesystem::path& file, const verification::WorkOrder& order);

} // namespace zeroline::records
