#pragma once

#include "gui/console/exit_status.hpp"
#include "gui/records/recheck.hpp"

#include <filesystem>
#include <string>

namespace zeroline::console {

/// What recheck() found, as one line of JSON with a line end; the keys are always the same (docs/records.md).
[[nodiscard]] std::string recheck_json(const std::filesystem::path& folder, const records::Recheck& result,
                                       ExitStatus status);

/// The same of a folder that could not be read: `trouble` is why.
[[nodiscard]] std::string unreadable_json(const std::filesystem::path& folder, const std::string& trouble);

} // namespace zeroline::console
