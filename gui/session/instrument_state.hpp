#pragma once

#include "analysis/verification/run_log.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::session {

/// What a run of `day` (YYYY-MM-DD) says of the check of its instrument against a second gauge
/// (records::load_instrument_checks()).
struct InstrumentState {
    std::optional<verification::ChecklistItem> item; ///< none: never checked
    std::string caution; ///< never checked (a real one), overdue, not in order; empty: all is well
};
/// Throws trace::InputError where the file of the checks cannot be read.
[[nodiscard]] InstrumentState instrument_state(const std::filesystem::path& instrument_file, const std::string& day,
                                               bool simulated);

/// Puts the item of `state` into a checklist that has no answer to it yet.
void note_instrument(std::vector<verification::ChecklistItem>& checklist, const InstrumentState& state);

} // namespace zeroline::session
