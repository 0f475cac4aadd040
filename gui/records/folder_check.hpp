#pragma once

#include "gui/records/manifest.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace zeroline::records {

/// An addition to a sealed record that was read and checked.
struct CheckedAddendum {
    Signature signature;
    std::string kind; ///< "review", "correction"
    std::string reason, text;
};

/// What the files, manifest and seal of a record folder say, without computing anything again.
struct FolderCheck {
    std::vector<std::string> troubles; ///< "trace.csv: is not the file that was sealed"; empty: intact
    Signature signature;
    std::string public_key;              ///< 32 bytes; empty where there is no readable seal
    std::vector<std::string> other_keys; ///< of addenda and of earlier records inside
    std::vector<CheckedAddendum> addenda;
    std::vector<std::string> remarks; ///< worth knowing, nothing wrong
};

/// Checks that every file is the one that was sealed, that none is missing or more, that the seal holds, that the
/// addenda form a chain, and the same for an earlier record inside. Never throws for what it finds in the folder.
[[nodiscard]] FolderCheck check_folder(const std::filesystem::path& folder);

} // namespace zeroline::records
