#pragma once

#include "gui/session/cycle_overlay.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace zeroline::session {

/// The cycles of a preset in a record that was saved, with their median; empty where it cannot be read. Any thread;
/// takes a moment, for the trace is measured again.
[[nodiscard]] CycleOverlay saved_cycles(const std::filesystem::path& record, const std::string& preset);

/// The presets of the order in a record, in its order; empty where it cannot be read.
[[nodiscard]] std::vector<std::string> saved_presets(const std::filesystem::path& record);

} // namespace zeroline::session
