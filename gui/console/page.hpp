#pragma once

#include "gui/console/published_checks.hpp"
#include "gui/records/sealing.hpp"

#include <filesystem>
#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace zeroline::console {

/// What makes record.pdf; empty in a build without the window, whose records have no printed page.
[[nodiscard]] records::PageMaker page_maker();

/// What the evidence page of an installation shows.
struct ChecksPage {
    std::vector<PublishedCheck> checks;
    std::string version;                                              ///< program and libraries, a line each
    std::vector<std::pair<std::filesystem::path, std::string>> files; ///< as loaded, with their SHA-256
    records::Signature signature;                                     ///< who validated, when
    std::string key;                                                  ///< fingerprint of the key that seals it
};

/// "65 published values, 0 not met".
[[nodiscard]] std::string totals_of(const std::vector<PublishedCheck>& checks);

/// What prints the result of published_checks() as a PDF: the outcome, who stands for it, program and libraries, then a
/// table a group. Empty in a build without the window.
using ChecksPrinter = std::function<void(const ChecksPage& page, const std::filesystem::path& pdf)>;
[[nodiscard]] ChecksPrinter checks_printer();

} // namespace zeroline::console
