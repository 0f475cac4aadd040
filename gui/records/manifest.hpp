#pragma once

#include "gui/records/open_folder.hpp"

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

/// Reads what Manifest::text() wrote, byte for byte. Refused too: no file at all, a file that stands twice or out of
/// order, a name that leads out of the folder or is none a record lists. Throws trace::InputError with the line.
[[nodiscard]] Manifest parse_manifest(std::string_view text);

/// Folders below one another that are read; each is held open. No chain of attempts is this long.
inline constexpr int kDeepestRecord = 100;

/// Whose manifest it is: a record's leaves its `addenda` out, which come later.
enum class Holds { record, addendum };

/// The regular files below a folder, sorted by name; left out are its own manifest and seal. Anything else that is no
/// file or folder (a link, a pipe), a folder without files, and what lies more than 100 folders deep comes back in
/// `oddities`.
struct Listing {
    std::vector<std::string> files;
    std::vector<std::string> oddities;
};
[[nodiscard]] Listing list_files(const OpenFolder& folder, Holds holds);

/// The manifest of everything list_files() finds. Throws trace::InputError for an oddity or a file name that has a
/// line end in it.
[[nodiscard]] Manifest make_manifest(const OpenFolder& folder, Holds holds, const Signature& signature,
                                     const std::string& key, const std::string& follows = {});

} // namespace zeroline::records
