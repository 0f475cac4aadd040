#pragma once

#include "gui/console/published_checks.hpp"
#include "gui/records/sealing.hpp"

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace zeroline::console {

/// What makes record.pdf; empty in a build without the window, whose records have no printed page.
[[nodiscard]] records::PageMaker page_maker();

/// What prints the result of published_checks() as a PDF: program and libraries, then a table a group. Empty in a build
/// without the window.
using ChecksPrinter = std::function<void(const std::vector<PublishedCheck>& checks, const std::string& installation,
                                         const std::string& when, const std::filesystem::path& pdf)>;
[[nodiscard]] ChecksPrinter checks_printer();

} // namespace zeroline::console
