#pragma once

#include "analysis/verification/attempts.hpp"

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

    /// Of the same order, the same unit, and both real or both simulated.
    [[nodiscard]] bool belongs_with(const KeptAttempt& other) const;
};

/// What a record folder, or an unfinished one, says of its attempt: the worse of its two verdicts, incomplete where
/// there is no record yet. None where the folder is neither.
[[nodiscard]] std::optional<KeptAttempt> kept_attempt(const std::filesystem::path& folder);

/// The attempts that lie in the same place as `one` and belong with it, by number; `one` itself is not looked for.
[[nodiscard]] std::vector<KeptAttempt> attempts_beside(const KeptAttempt& one);

/// The index of the attempt that stands for the work order (verification::standing_attempt()); none for none.
[[nodiscard]] std::optional<std::size_t> standing(const std::vector<KeptAttempt>& attempts);

} // namespace zeroline::records
