#pragma once

#include "gui/session/judgement_model.hpp"

namespace zeroline::session {

/// What gives way first where a table has little room, in the window and in a terminal: it stands in the record and
/// where there is more room. What a quantity is called and comes to stays in sight.
inline constexpr JudgementModel::Column kGivesWay[] = {
    JudgementModel::basis, JudgementModel::set,        JudgementModel::displayed, JudgementModel::limits,
    JudgementModel::mean,  JudgementModel::cycles,     JudgementModel::coverage,  JudgementModel::prescribed,
    JudgementModel::ratio, JudgementModel::probability};

} // namespace zeroline::session
