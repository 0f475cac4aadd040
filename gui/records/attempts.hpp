#pragma once

#include "analysis/verification/attempts.hpp"
#include "gui/records/earlier.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::records {

/// One attempt of a work order, and where it is kept.
struct KeptAttempt {
    std::filesystem::path folder;
    std::string work_order, asset;
    bool simulated = false; ///< says nothing about a real unit, and is never counted among its attempts
    verification::Attempt attempt;
    std::string manifest_sha256 = {}; ///< of the sealed record; empty where it is not sealed
    std::string as_found = {};     ///< manifest_sha256 of the record as found that it follows; empty: itself as found
    bool left_out_unlike = false;  ///< it left one cycle out as unlike the others
    std::string recalculated = {}; ///< manifest_sha256 of the record that it calculates again; empty: none

    /// Of the same order, the same unit, both real or both simulated, and both as found or as left after the same.
    [[nodiscard]] bool belongs_with(const KeptAttempt& other) const;
};

/// What a record folder, or an unfinished one, says of its attempt: the worse of its two verdicts, incomplete where
/// there is no record yet. None where the folder is neither.
[[nodiscard]] std::optional<KeptAttempt> kept_attempt(const std::filesystem::path& folder);

/// The attempts that belong with `one` and lie in the same place, or inside a record there, by number, each once; `one`
/// itself is not looked for. A record that another one calculates again is left out: that one is in its place.
[[nodiscard]] std::vector<KeptAttempt> attempts_beside(const KeptAttempt& one);

/// The attempts that a new run to be kept at `one.folder` is counted with: those as left after the record `as_found`;
/// where none is named, those as left after the last repair that lies beside, else those as found. Throws
/// trace::InputError where `as_found` is no intact record.
[[nodiscard]] std::vector<KeptAttempt> attempts_before(KeptAttempt one, const std::optional<AsFound>& as_found);

/// Puts the record that a new run follows into it, whole: the latest sealed one of `before`, which holds those before
/// it, else the record as found. Attempts that are not sealed, or not intact, are passed over.
void put_followed(const RecordFolder& record, const std::vector<KeptAttempt>& before,
                  const std::optional<AsFound>& as_found, const std::optional<verification::Replaces>& replaces);

/// Why this record is not the one that stands for its work order, by what lies beside it and inside it; empty: it is.
/// Another attempt stands, it was calculated again, or it is the record as found of one as left.
[[nodiscard]] std::string why_not_standing(const std::filesystem::path& folder);

/// The number of the attempt that left a cycle out as unlike the others: none may do so after it.
[[nodiscard]] std::optional<int> unlike_in_attempt(const std::vector<KeptAttempt>& attempts);

/// The index of the attempt that stands for the work order (verification::standing_attempt()); none for none.
[[nodiscard]] std::optional<std::size_t> standing(const std::vector<KeptAttempt>& attempts);

} // namespace zeroline::records
