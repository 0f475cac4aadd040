#pragma once

#include "gui/print/document.hpp"
#include "gui/print/pages.hpp"

#include <filesystem>

namespace zeroline::print {

// The sheets of pages.hpp before they are files: to be drawn on whatever has pages. The same conditions hold.

[[nodiscard]] Document record_sheet(const std::filesystem::path& folder, const PageOptions& options);
[[nodiscard]] Document home_sheet(const std::filesystem::path& folder, const PageOptions& options);
[[nodiscard]] Document label_sheet(const std::filesystem::path& folder, const PageOptions& options);
[[nodiscard]] Document tag_sheet(const std::filesystem::path& folder, const PageOptions& options);

} // namespace zeroline::print
