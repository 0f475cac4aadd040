#pragma once

#include "gui/session/record_tree.hpp"
#include "gui/session/result_words.hpp"

#include <QString>

#include <vector>

namespace zeroline::session {

/// What was measured at one setting of a ladder, every text ready.
struct LadderSetting {
    double at = 0.0, off = 0.0, u = 0.0;   ///< the setting; measured mean minus it; U of the mean
    QString set, mean, error, uncertainty; ///< error: measured mean minus set; U of the mean
    QString sign, word;                    ///< the verdict against what was set
    Tone tone = Tone::none;
};

/// One measurand over the settings of a ladder, and the straight line through them.
struct LadderView {
    QString name, unit, preset;
    std::vector<LadderSetting> settings;
    double gain = 1.0, offset = 0.0;
    QString line; ///< gain, offset and largest deviation with their U, as a sentence
};

[[nodiscard]] std::vector<LadderView> ladder_view(const RecordTree& record, const ResultWords& words);

/// Whether a judgement is shown by the ladder and not among the numbers of its preset: one of a ladder that stands in
/// its tables, or that passes.
[[nodiscard]] bool shown_by_a_ladder(const RecordTree& record, const JudgementRow& row);

} // namespace zeroline::session
