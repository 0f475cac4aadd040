#pragma once

#include "gui/session/record_tree.hpp"
#include "gui/session/result_words.hpp"

#include <QStringList>

namespace zeroline::session {

/// What was tested beside the cycles at a closed hose end, a sentence each: the leak test of the set-up, the strength
/// with an orifice. Empty where nothing was.
[[nodiscard]] QStringList tests_view(const RecordTree& record, const ResultWords& words);

/// What the headline of a periodic check says where strength under flow was not tested: a dead end is a blower's best
/// case. Else empty.
[[nodiscard]] QString strength_missing(const RecordTree& record, const ResultWords& words);

} // namespace zeroline::session
