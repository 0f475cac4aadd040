#pragma once

#include "gui/records/open_folder.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/records/signing_key.hpp"

#include <nlohmann/json_fwd.hpp>

#include <filesystem>
#include <string>

namespace zeroline::records {

/// The record that a new one follows. earlier.json, schema zeroline/earlier/1, holds it; the issue of the record
/// repeats it.
struct Earlier {
    /// "as-found": something was done since; "attempt": the attempt before this one; "recalculated": same trace, other
    /// evidence.
    std::string relation;
    std::string record_number;
    std::string manifest_sha256;
    std::string verdict, unit_accuracy; ///< of the earlier record
    std::string reason;                 ///< what was done between, why it was tried or calculated again
};

/// A sealed record of a unit as it was found, and what was done to it since.
struct AsFound {
    std::filesystem::path folder;
    std::string done_between;
};

/// The folder that holds the earlier record inside one that follows it; empty where it is only named.
[[nodiscard]] std::string held_folder(const std::string& relation);

[[nodiscard]] nlohmann::ordered_json issue_tree(const Earlier& earlier);
/// Reads earlier.json of a record. Throws trace::InputError naming the file.
[[nodiscard]] Earlier load_earlier(const OpenFolder& record);

/// Names a sealed record as the one before. Throws trace::InputError: not sealed, not intact, no reason.
[[nodiscard]] Earlier name_earlier(const std::filesystem::path& folder, const std::string& relation,
                                   const std::string& reason);

/// Puts a sealed record as found into one that is in the making: the whole folder under as-found, and earlier.json
/// with what was done between. Its recheck covers both. Throws trace::InputError.
void put_as_found(const RecordFolder& record, const std::filesystem::path& found, const std::string& done_between);
/// The same as another record says of itself.
void put_same_as_found(const RecordFolder& record, const std::filesystem::path& other);
/// The same for the attempt before, under attempt-before, with the reason why it was tried again. That record holds the
/// attempt before it in turn, so that the last one holds them all.
void put_attempt_before(const RecordFolder& record, const std::filesystem::path& attempt, const std::string& reason);
/// earlier.json of a record that is calculated again from the same trace; its journal, where it has one, says so.
/// Throws trace::InputError.
void put_recalculated(const RecordFolder& record, const std::filesystem::path& earlier, const std::string& reason,
                      const SigningKey& key);

} // namespace zeroline::records
