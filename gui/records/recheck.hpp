#pragma once

#include "gui/records/folder_check.hpp"
#include "gui/records/key_list.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::records {

/// What checking a saved record again came to.
struct Recheck {
    FolderCheck folder;
    std::vector<std::string> differences;  ///< of the recomputed record: "/verdict: saved "pass", now "fail""
    std::vector<std::string> remarks;      ///< worth knowing, nothing wrong: another build, an older method
    std::string record_number, verdict;    ///< as saved
    bool critical = false;                 ///< as saved: the unit is to be kept out of use, or somebody was connected
    std::string signed_by;                 ///< name in the list of known keys; empty: not known, or no list given
    std::vector<std::string> unknown_keys; ///< fingerprints of those that sealed any part of it and are not in the list
    std::vector<std::string> dates; ///< that cannot be (impossible_dates()); whoever reads them decides what they mean

    [[nodiscard]] bool intact() const { return folder.troubles.empty() && differences.empty(); }
};

/// Checks files, manifest, seal and addenda (check_folder()), and computes the record again from its own trace: within
/// the same build to the last bit, between builds within 1e-9. With a list of known keys, one that was retired or
/// revoked before it sealed is a trouble; one that is not in the list makes no record less whole, and is for the caller
/// to judge (unknown_keys). Throws trace::InputError where `folder` is no folder, or nothing of a record stands in it;
/// whatever is wrong inside is in the result.
[[nodiscard]] Recheck recheck(const std::filesystem::path& folder, const KeyList* known = nullptr);

/// Why a record may not be shown or printed as what it was sealed as: it has a manifest or a seal, and is not intact.
/// Empty: it is intact, or a draft that was never sealed.
[[nodiscard]] std::string why_not_intact(const FolderCheck& check);

/// check_folder() of a record that is to be shown, printed or handed on. Throws trace::InputError where
/// why_not_intact() says something.
[[nodiscard]] FolderCheck check_to_show(const OpenFolder& record);

/// Writes what other tools need to check the seal of `record` (and of its addenda) into the new folder `out`:
/// manifest.sha256, signature.bin, public-key.pem. Throws trace::InputError.
void export_seal(const std::filesystem::path& record, const std::filesystem::path& out);

} // namespace zeroline::records
