#pragma once

#include "analysis/verification/run_log.hpp"
#include "gui/records/procedure_file.hpp"
#include "gui/session/record_tree.hpp"

#include <QString>

#include <optional>
#include <string>
#include <vector>

namespace zeroline::session {

/// What is looked at beside the run on an occasion, in the order of the work (common practice, no source). The words
/// stand in the record as they are; some of them say that something the closed hose end cannot show was tested after
/// all (docs/method.md, not tested).
[[nodiscard]] std::vector<std::string> checklist_of(verification::Occasion occasion);

/// The same, and what a procedure asks about beside it.
[[nodiscard]] std::vector<std::string>
checklist_of(verification::Occasion occasion, const std::optional<records::Read<verification::Procedure>>& procedure);

/// The item in the language of the screen; one that nobody knows stands as it is.
[[nodiscard]] QString checklist_words(const std::string& item);

/// Items of the checklist of its occasion that a record has no answer to. None where it knows of no run.
[[nodiscard]] std::vector<std::string> not_answered(const RecordTree& record);

[[nodiscard]] bool has_item(const std::vector<verification::ChecklistItem>& checklist, const std::string& item);

/// Puts the item in; one of that name is replaced.
void note_item(std::vector<verification::ChecklistItem>& checklist, verification::ChecklistItem item);

} // namespace zeroline::session
