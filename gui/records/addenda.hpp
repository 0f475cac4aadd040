#pragma once

#include "gui/records/manifest.hpp"
#include "gui/records/open_folder.hpp"
#include "gui/records/signing_key.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace zeroline::records {

/// What is added to a sealed record; the record itself stays as it is. addendum.json, schema zeroline/addendum/1.
struct Addendum {
    std::string kind; ///< "review": a second look; "correction": something in the record is wrong
    Signature signature;
    std::string reason; ///< of a correction: why; of a review: may be empty
    std::string text;   ///< of a correction: what it should read; of a review: a remark, or empty
    std::string record_number;
    int number = 0;
    std::string follows; ///< SHA-256 of the manifest before
};

/// Reads addendum.json of an addendum's folder. Throws trace::InputError naming the file.
[[nodiscard]] Addendum load_addendum(const OpenFolder& folder);

/// Entries of the folder `addenda` in order; `expected` is false for one that is no folder or out of the numbering
/// (001, 002, ...). Throws trace::InputError where `addenda` is no folder.
struct AddendumEntry {
    std::string name;
    bool expected = false;
};
[[nodiscard]] std::vector<AddendumEntry> list_addenda(const OpenFolder& record);

/// Adds to an intact record: `addenda/NNN` with its own manifest and seal, which names the manifest before it. One
/// rename at the end. Takes kind, signature, reason and text of `addendum`; returns its folder. Throws
/// trace::InputError: the record is not intact, a name, meaning or reason is missing.
std::filesystem::path add_addendum(const std::filesystem::path& record, Addendum addendum, const SigningKey& key);

} // namespace zeroline::records
