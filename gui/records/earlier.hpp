#pragma once

#include "gui/records/record_folder.hpp"

#include <nlohmann/json_fwd.hpp>

#include <filesystem>
#include <string>

namespace zeroline::records {

/// The record that a new one follows. earlier.json, schema zeroline/earlier/1, holds it; the issue of the record
/// repeats it.
struct Earlier {
    std::string relation; ///< "as-found": something was done since; "recalculated": same trace, other evidence
    std::string record_number;
    std::string manifest_sha256;
    std::string verdict, unit_accuracy; ///< of the earlier record
    std::string reason;                 ///< what was done between, or why it was calculated again
};

[[nodiscard]] nlohmann::ordered_json issue_tree(const Earlier& earlier);
/// Throws trace::InputError naming the file.
[[nodiscard]] Earlier load_earlier(const std::filesystem::path& file);

/// Names a sealed record as the one before. Throws trace::InputError: not sealed, not intact, no reason.
[[nodiscard]] Earlier name_earlier(const std::filesystem::path& folder, const std::string& relation,
                                   const std::string& reason);

/// Puts a sealed record as found into one that is in the making: the whole folder under as-found, and earlier.json
/// with what was done between. Its recheck covers both. Throws trace::InputError.
void put_as_found(const RecordFolder& record, const std::filesystem::path& found, const std::string& done_between);
/// earlier.json of a record that is calculated again from the same trace. Throws trace::InputError.
void put_recalculated(const RecordFolder& record, const std::filesystem::path& earlier, const std::string& reason);

} // namespace zeroline::records
