#pragma once

#include "acquisition/trace/instrument.hpp"
#include "analysis/verification/instrument_check.hpp"
#include "gui/register/delivery.hpp"

#include <filesystem>
#include <functional>
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

/// Keeps a check beside the instrument file and notes it for the register, which takes it with the next record; what it
/// returns says why it could not, or is empty. `file` empty: an instrument that has none, and nothing is kept.
using CheckKeeper = std::function<std::string(const verification::InstrumentCheck&)>;
[[nodiscard]] CheckKeeper check_keeper(const std::filesystem::path& file, const trace::Instrument& instrument,
                                       const unit_register::Bench& bench);

/// Puts the item of `state` into a checklist that has no answer to it yet.
void note_instrument(std::vector<verification::ChecklistItem>& checklist, const InstrumentState& state);

} // namespace zeroline::session
