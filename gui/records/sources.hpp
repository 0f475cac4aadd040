#pragma once

#include "gui/records/evidence_files.hpp"
#include "gui/records/record_folder.hpp"

#include <filesystem>
#include <string>

namespace zeroline::records {

/// A new record of a trace from anywhere: FOLDER.part with its evidence, copied from `files`. A copy that is cut off is
/// finished by fill_from_sources(). Throws trace::InputError; then nothing stays.
[[nodiscard]] RecordFolder begin_from_files(const std::filesystem::path& folder, const EvidenceFiles& files,
                                            const LoadedEvidence& evidence);

/// A new record made again from the evidence of `earlier` with another instrument file, and why; its journal says so,
/// signed with the bench's key. As above.
[[nodiscard]] RecordFolder begin_from_record(const std::filesystem::path& folder, const std::filesystem::path& earlier,
                                             const std::filesystem::path& instrument, const std::string& reason,
                                             const Unlock& unlock);

/// Copies the evidence into a FOLDER.part that was left while it was copied, from where its sources.json says it
/// stands; does nothing where that is done. Throws trace::InputError.
void fill_from_sources(const RecordFolder& record, const Unlock& unlock);

} // namespace zeroline::records
