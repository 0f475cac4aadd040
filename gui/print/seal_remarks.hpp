#pragma once

#include "gui/print/pages.hpp"

#include "gui/records/open_folder.hpp"

#include <vector>

namespace zeroline::print {

/// The signatures that the manifests of a record name in their remark lines ("# signer: ..."): the record's own, then
/// its addenda in order. Read to be shown; nothing is checked here, that is what `recheck` is for. None where the
/// record is not sealed. Throws trace::InputError naming a file that cannot be read.
[[nodiscard]] std::vector<Signature> signatures_of(const records::OpenFolder& folder);

/// Something that was added to a sealed record.
struct Correction {
    std::string kind, reason, text; ///< "review", "correction"; why; what it should read
    std::string name, time;
};

/// What the addenda of a record say (addenda/NNN/addendum.json), in order.
[[nodiscard]] std::vector<Correction> corrections_of(const records::OpenFolder& folder);

} // namespace zeroline::print
