#pragma once

#include "gui/records/evidence_files.hpp"
#include "gui/records/manifest.hpp"
#include "gui/records/record_folder.hpp"

#include <nlohmann/json_fwd.hpp>

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace zeroline::records {

/// Makes the printed page of the record whose files stand in `folder`, as the file `pdf`; `key` is the fingerprint of
/// the key that will seal it. Empty where the program is
/// built without printing: such a record has no page.
using PageMaker = std::function<void(const std::filesystem::path& folder, const std::filesystem::path& pdf,
                                     const Signature& signature, const std::string& key)>;

struct SealRequest {
    Signature signature;
    std::filesystem::path key_file; ///< made on first use (SigningKey::load_or_make())
    PageMaker make_page;
    std::string number; ///< record number; empty: usual_record_number()
    Unlock unlock = {}; ///< gives the key where it is open already; none: it is read from `key_file`
};

/// What a record lacks before it may be sealed, in words for a person and in the order of a form; empty: nothing. The
/// list is that of ISO/IEC 17025, 7.8.2.1 and 7.8.6 (organisation, place, number, customer or why none, method, unit,
/// days of the run and of issue, results with units, uncertainty, decision rule, statement that it concerns the unit
/// tested, who signed) and of 21 CFR 11.50 (printed name, time and meaning of a signature).
[[nodiscard]] std::vector<std::string> missing_for_seal(const nlohmann::ordered_json& record);

/// "2026-11-25-091204-RC-0117-k7qd": start of the run, unit, and four letters by chance, so that no other record has
/// it; fit for file names and for sorting. Another one at every call.
[[nodiscard]] std::string usual_record_number(const nlohmann::ordered_json& record);

/// The key "issue" of record.json: organisation, number, method, statement, who signed, which record it follows.
[[nodiscard]] nlohmann::ordered_json make_issue(const nlohmann::ordered_json& record, const LoadedEvidence& evidence,
                                                const SealRequest& request);

struct Sealing {
    std::vector<std::string> missing; ///< not empty: not sealed, the FOLDER.part stays, with its record.json
    std::string number;
    std::filesystem::path folder; ///< where the record stands now
};

/// Completes a record in this order: record.json, record.pdf, manifest, seal, one rename. Whatever goes wrong before
/// the rename, the FOLDER.part stays and can be completed by the same call. Throws trace::InputError, also where a file
/// stands there that no record has, or the capture journal says otherwise (need_journal()).
[[nodiscard]] Sealing seal_and_rename(const RecordFolder& record, const LoadedEvidence& evidence,
                                      const Assessed& assessed, const SealRequest& request);

/// Refuses what cannot stand in one line of a manifest: control characters, more than 200 bytes. Throws
/// trace::InputError with `what` in front.
void check_signature_text(const std::string& text, const std::string& what);

} // namespace zeroline::records
