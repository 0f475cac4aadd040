#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace zeroline::records {

/// Who signs a record or an addition to it, and what that means (21 CFR 11.50 asks for name, time and meaning).
struct Signature {
    std::string signer; ///< printed name
    std::string role;   ///< may be empty
    std::string meaning;
    std::string time; ///< RFC 3339 with offset

    bool operator==(const Signature&) const = default;
};

/// The list of a folder's files with their SHA-256 sums, in the format of sha256sum; remark lines in front say who
/// signed. The seal is a signature over exactly these bytes.
struct Manifest {
    struct File {
        std::string name; ///< path inside the folder
        std::string sha256;
    };
    Signature signature;
    std::string key;     ///< fingerprint of the key that seals it
    std::string follows; ///< SHA-256 of the manifest before; of an addition only
    std::vector<File> files;

    [[nodiscard]] std::string text() const;
};

/// Reads what Manifest::text() wrote, byte for byte. Throws trace::InputError with the line.
[[nodiscard]] Manifest parse_manifest(std::string_view text);

/// The regular files below `folder`, sorted by name; left out are its own manifest and seal, and `addenda`. Anything
/// else that is no file or folder (a link, a pipe), and a folder without files, comes back in `oddities`.
struct Listing {
    std::vector<std::string> files;
    std::vector<std::string> oddities;
};
[[nodiscard]] Listing list_files(const std::filesystem::path& folder);

/// The manifest of everything list_files() finds. Throws trace::InputError for an oddity or a file name that has a
/// line end in it.
[[nodiscard]] Manifest make_manifest(const std::filesystem::path& folder, const Signature& signature,
                                     const std::string& key, const std::string& follows = {});

} // namespace zeroline::records
