#pragma once

#include "gui/records/journal.hpp"
#include "gui/records/open_folder.hpp"
#include "gui/records/record_folder.hpp"

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace zeroline::records {

/// Where the files of `folder` are not what its journal says; empty: they are. A run log that claims less than its
/// journal (imported in place of captured-here) is no trouble. Throws trace::InputError where a file cannot be read.
[[nodiscard]] std::vector<std::string> troubles_with_journal(const OpenFolder& folder, const Journal& journal);

/// Whether the run log of `folder` claims a capture by this program, real or simulated: only that can have a journal.
[[nodiscard]] bool claims_a_capture(const OpenFolder& folder);

/// Whether a public key (32 bytes) is one of this bench.
using IsKnown = std::function<bool(const std::string& public_key)>;
/// Those in the list of public keys beside `key_file`.
[[nodiscard]] IsKnown known_beside(const std::filesystem::path& key_file);

/// Brings a FOLDER.part that was left to what its journal proves, before it is judged, and returns what was found, a
/// sentence each:
/// - without a journal, or with one of a key that is not known, a run captured here becomes an imported one;
/// - bytes of the trace after the last entry go to trace-after.csv, where they are kept and not judged;
/// - entries that the trace did not live to see (a power cut) are passed over back to the last one that fits;
/// - a run log that is older than the journal is written again from it.
///
/// Throws trace::InputError where a file was changed since, or the journal itself does not hold: nothing is changed
/// then.
[[nodiscard]] std::vector<std::string> settle_with_journal(const RecordFolder& part, const IsKnown& is_known);

/// Refuses to seal what claims to be captured here without a journal that says so, or with one that says otherwise.
/// Throws trace::InputError.
void need_journal(const RecordFolder& part);

} // namespace zeroline::records
