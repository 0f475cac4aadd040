#pragma once

#include "analysis/verification/assessment.hpp"
#include "gui/session/ladder_view.hpp"
#include "gui/session/record_tree.hpp"
#include "gui/session/result_words.hpp"

#include <QString>
#include <QStringList>

#include <vector>

namespace zeroline::session {

/// What stands above everything that was made without a unit.
inline constexpr const char* kSimulated =
    QT_TRANSLATE_NOOP("Result", "SIMULATED: a program sent these readings. They say nothing about any unit.");

/// Whom it leaves without a unit; %1: whom to call.
inline constexpr const char* kReplacement = QT_TRANSLATE_NOOP(
    "Result", "If a person depends on this unit, arrange a replacement now%1; do not leave them without one.");
/// What becomes of a unit that failed.
inline constexpr const char* kNotGivenOut =
    QT_TRANSLATE_NOOP("Result", "Do not give this unit out: label it as not released and keep it apart until it is "
                                "adjusted and checked again.");

/// One judgement as it is shown, every text ready.
struct ResultRow {
    JudgementRow is; ///< the figures behind the texts
    QString name;    ///< "exsufflation pressure, as set"
    QString prescribed, set, displayed, mean, worst, limits, uncertainty, coverage, ratio, probability;
    QString word; ///< "fail, critical"
    QString sign;
    Tone tone = Tone::none;
    QString sentence; ///< why it is no pass; empty where there is nothing to say
};

struct ResultFinding {
    QString code, severity, text; ///< severity: a word
    Tone tone = Tone::none;
};

/// Why the result is what it is; in the colour of a fail where that makes it one.
struct ResultReason : ReasonRow {
    Tone tone = Tone::none;
};

/// What a result comes to, for a choice of words.
enum class State {
    within,
    near_limit,
    within_but_not_as_set, ///< what was delivered agreed with the prescription, not with what the unit was set to
    incomplete,
    narrowly_outside, ///< by less than the uncertainty
    outside,
    not_in_order, ///< an item of the checklist; no value lay outside
    out_of_use_until_checked,
    out_of_use,
    breath ///< somebody was connected: nothing is said about the unit
};

/// A result, made once from record.json and rendered by window, terminal and paper: whoever reads it, it reads alike.
struct ResultView {
    metrology::Outcome delivery = metrology::Outcome::incomplete;      ///< measured against prescribed
    metrology::Outcome unit_accuracy = metrology::Outcome::incomplete; ///< measured against set
    metrology::Outcome outcome = metrology::Outcome::incomplete;       ///< the worse of both
    bool critical = false;
    State state = State::incomplete;
    Tone tone = Tone::incomplete;

    QStringList banner; ///< what stands above everything: simulated, imported, not sealed
    QString sign, word; ///< "✓", "pass"
    QString headline;   ///< in large words. Both questions where their answers differ
    QString sentence;   ///< what goes with it; empty where `why` says it all
    QString why;        ///< one sentence with its figures
    QStringList to_do;  ///< what a person has to do now
    QStringList after;  ///< what was done with the unit, as far as somebody said it
    QString accuracy;   ///< whether the unit does what it is set to
    QString not_tested; ///< what was not tested, and what was left out
    QStringList presets;
    std::vector<ResultRow> rows; ///< but those of a ladder that stand there
    std::vector<LadderView> ladder;
    QStringList tests; ///< leak test of the set-up, strength with an orifice: a sentence each
    std::vector<ResultFinding> findings;
    std::vector<ResultReason> reasons; ///< those that make it a fail first
    QStringList sources;               ///< of the limits
    int exit_status = 3;               ///< of a command (docs/formats.md)

    QString work_order, asset, contact, origin;
    int attempt = 1;

    [[nodiscard]] bool out_of_use() const
    {
        return state == State::out_of_use || state == State::out_of_use_until_checked;
    }
    /// It failed; what is critical has a list of its own.
    [[nodiscard]] bool not_given_out() const { return !critical && outcome == metrology::Outcome::fail; }
    [[nodiscard]] bool breath() const { return state == State::breath; }
    [[nodiscard]] bool simulated() const { return origin == QLatin1String("simulated"); }
    [[nodiscard]] bool has_finding(const char* code) const;
    /// Ask at once whether somebody is connected: a breath was found, or signs that came the other way round, which a
    /// breath that is taken for the holds of a hand brings about too.
    [[nodiscard]] bool may_be_a_breath() const { return has_finding("breathing") || has_finding("swapped-ports"); }
};

/// The view of a record.json, with the words of its reader.
[[nodiscard]] ResultView result_view(const RecordTree& record, Reader reader);

/// The same from the text of a record.json. Throws trace::InputError.
[[nodiscard]] ResultView result_view(const std::string& record_json, Reader reader);

/// Of a run that goes on: through the tree of a record like any other, without its cycles.
[[nodiscard]] ResultView live_view(const verification::WorkOrder& order, const verification::Assessment& assessment);

/// One judgement alone, for a table that has only begun.
[[nodiscard]] ResultRow result_row(const JudgementRow& row, Reader reader);

} // namespace zeroline::session
