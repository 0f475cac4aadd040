#pragma once

#include "analysis/verification/disposition.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/session/record_tree.hpp"
#include "gui/session/result_words.hpp"

#include <QStringList>

namespace zeroline::session {

struct ResultView;

/// What was done with the unit, a sentence each; empty where nobody said anything. A unit that did not pass is never
/// called released, whatever a run log from elsewhere says.
[[nodiscard]] QStringList after_the_verdict(const RecordTree& record, const ResultWords& words);

/// Whether the unit may be released on this result: the one rule of the register's due list.
[[nodiscard]] bool may_be_released(const ResultView& result);

/// Refuses what cannot be said of this result. Throws trace::InputError.
void refuse_disposition(const verification::Disposition& said, const ResultView& result);

struct Judged {
    records::LoadedEvidence evidence;
    records::Assessed assessed;
};
/// Puts what is done with the unit into the run log of a record in the making, and judges it anew.
[[nodiscard]] Judged judged_again_with(const records::RecordFolder& folder, const verification::Disposition& said,
                                       const records::SigningKey& key);

} // namespace zeroline::session
