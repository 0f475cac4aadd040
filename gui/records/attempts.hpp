#pragma once

#include "analysis/verification/attempts.hpp"
#include "gui/records/earlier.hpp"
#include "gui/records/key_list.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::records {

/// Whether an attempt is counted. Anybody can put files beside a record; the keys of a bench cannot be put there.
enum class Counts {
    proven,   ///< sealed, or still unsigned, with a capture journal that a known key signed
    unproven, ///< sealed by a known key, from before there were journals
    not_at_all
};

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

    Counts counts = Counts::proven; ///< as weigh() found
    std::string why_not = {};       ///< why it does not count

    /// Of the same order and the same unit, both real or both simulated.
    [[nodiscard]] bool same_order(const KeptAttempt& other) const;
    /// Of the same order, the same unit, both real or both simulated, and both as found or as left after the same.
    [[nodiscard]] bool belongs_with(const KeptAttempt& other) const;
};

/// What a record folder, or an unfinished one, says of its attempt: the worse of its two verdicts, incomplete where
/// there is no record yet. None where the folder is neither.
[[nodiscard]] std::optional<KeptAttempt> kept_attempt(const OpenFolder& folder);
[[nodiscard]] std::optional<KeptAttempt> kept_attempt(const std::filesystem::path& folder);

/// Whether the attempt kept in `folder` counts, by its seal or its journal and the keys in `known`. Null: every key is.
void weigh(KeptAttempt& attempt, const OpenFolder& folder, const KeyList* known);

/// The attempts of the same order and unit as `one` that lie in the same place, or inside a record there, each once:
/// first those as found, then those as left, by number; last those that do not count. A record that another one
/// calculates again is left out: that one is in its place.
[[nodiscard]] std::vector<KeptAttempt> attempts_beside(const KeptAttempt& one, const KeyList* known);

/// The attempts that count and that a new run to be kept at `one.folder` is counted with: those as left after the
/// record `as_found`; where none is named, those as left after the last repair that lies beside, else those as found.
/// Throws trace::InputError where `as_found` is no intact record.
[[nodiscard]] std::vector<KeptAttempt> attempts_before(KeptAttempt one, const std::optional<AsFound>& as_found,
                                                       const KeyList* known);

/// Puts the record that a new run follows into it, whole: the latest sealed one of `before`, which holds those before
/// it, else the record as found. Attempts that are not sealed, or not intact, are passed over.
void put_followed(const RecordFolder& record, const std::vector<KeptAttempt>& before,
                  const std::optional<AsFound>& as_found, const std::optional<verification::Replaces>& replaces);

/// Why this record is not the one that stands for its work order, by what lies beside it and inside it; empty: it is.
/// Another attempt stands, it was calculated again, or it is the record as found of one as left.
[[nodiscard]] std::string why_not_standing(const std::filesystem::path& folder, const KeyList* known);

/// The number of the attempt that left a cycle out as unlike the others: none may do so after it.
[[nodiscard]] std::optional<int> unlike_in_attempt(const std::vector<KeptAttempt>& attempts);

/// The index of the attempt that stands for the work order (verification::standing_attempt()); none for none.
[[nodiscard]] std::optional<std::size_t> standing(const std::vector<KeptAttempt>& attempts);

} // namespace zeroline::records
