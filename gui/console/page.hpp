#pragma once

#include "gui/records/sealing.hpp"

#include <filesystem>
#include <functional>
#include <string>

namespace zeroline::console {

/// What makes record.pdf; empty in a build without the window, whose records have no printed page.
[[nodiscard]] records::PageMaker page_maker();

/// Prints plain text as a PDF; empty in a build without the window.
using TextPageMaker = std::function<void(const std::string& text, const std::filesystem::path& pdf)>;
[[nodiscard]] TextPageMaker text_page_maker();

} // namespace zeroline::console
