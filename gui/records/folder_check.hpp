#pragma once

#include "gui/records/manifest.hpp"
#include "gui/records/open_folder.hpp"

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

/// Whose seal, and the time that was signed with it.
struct MadeSeal {
    std::string public_key; ///< 32 bytes; empty where there is no readable seal
    std::string time;       ///< RFC 3339 with offset, as its manifest says; may be empty
};

/// What the files, manifest and seal of a record folder say, without computing anything again.
struct FolderCheck {
    bool sealed = false;               ///< has a manifest or a seal, whole or not; false: a draft at best
    std::vector<std::string> troubles; ///< "trace.csv: is not the file that was sealed"; empty: intact
    Signature signature;
    std::string public_key;            ///< 32 bytes; empty where there is no readable seal
    std::vector<MadeSeal> other_seals; ///< of addenda and of earlier records inside
    std::vector<CheckedAddendum> addenda;
    std::vector<std::string> remarks; ///< worth knowing, nothing wrong
};

/// Checks that in the folder stand exactly the files that were sealed, that the seal holds, that the addenda form a
/// chain, and the same for an earlier record inside. Never throws for what it finds in the folder.
[[nodiscard]] FolderCheck check_folder(const OpenFolder& folder);
[[nodiscard]] FolderCheck check_folder(const std::filesystem::path& folder);

} // namespace zeroline::records
