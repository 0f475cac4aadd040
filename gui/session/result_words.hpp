#pragma once

#include "analysis/verification/assessment.hpp"

#include <QString>
#include <QStringList>

namespace zeroline::session {

/// What a judgement looks like: never by colour alone, so each has a word and a sign too.
enum class Tone { none, pass, conditional, incomplete, fail, critical };

[[nodiscard]] Tone tone_of(metrology::Outcome outcome, bool critical = false);
[[nodiscard]] QString sign_of(Tone tone); ///< one character
[[nodiscard]] QString outcome_word(metrology::Outcome outcome);

/// Names in the language of the screen; a code that nobody knows stands as it is, with blanks for hyphens.
[[nodiscard]] QString measurand_name(const std::string& measurand);
[[nodiscard]] QString not_tested_name(const std::string& code);
[[nodiscard]] QString severity_word(verification::Severity severity);

/// The verdict in large words: "Agreed", "Outside limits", "Incomplete", "Keep out of use", ...
[[nodiscard]] QString verdict_words(const verification::Assessment& assessment);
[[nodiscard]] Tone verdict_tone(const verification::Assessment& assessment);
[[nodiscard]] bool has_finding(const verification::Assessment& assessment, const std::string& code);
/// Ask at once whether somebody is connected: a breath was found, or signs that came the other way round, which a
/// breath that is taken for the holds of a hand brings about too.
[[nodiscard]] bool may_be_a_breath(const verification::Assessment& assessment);
/// What comes first where a limit was not kept, before anybody touches the unit's settings; empty else, and where the
/// unit has to stay out of use whatever the cause.
[[nodiscard]] QString first_to_check(const verification::Assessment& assessment);
/// Its words, for papers as well.
inline constexpr const char* kCheckFirst =
    QT_TRANSLATE_NOOP("Result", "Check zero, plug and hose first; this run is kept.");
/// What is critical is a breath at the hose and nothing else: a person is connected, and the unit is not to blame.
[[nodiscard]] bool only_a_breath(const verification::Assessment& assessment);
/// One sentence why.
[[nodiscard]] QString why(const verification::Assessment& assessment);
/// "manual holds, preset 'day' (the unit has no manual mode)"
[[nodiscard]] QString skipped_text(const verification::Skipped& skipped);
/// "Pressures and times at a closed hose end only. Not tested: ..."
[[nodiscard]] QString what_was_not_tested(const verification::Assessment& assessment);
/// Every reason once: of the whole, then of each judgement that did not pass.
[[nodiscard]] QStringList reasons(const verification::Assessment& assessment);

/// "looks like ... because ... try ...", in the language of the screen where one is at hand.
[[nodiscard]] QString finding_text(const verification::Finding& finding);
[[nodiscard]] QString reason_text(const verification::Reason& reason);

/// One judgement as a sentence with its figures.
[[nodiscard]] QString sentence_of(const verification::Judgement& judgement);
/// "38 to 42", "at most 2", "reported".
[[nodiscard]] QString limits_text(const verification::Judgement& judgement);
[[nodiscard]] QString measured_text(const verification::Judgement& judgement, const std::optional<double>& value);
[[nodiscard]] QString given_text(const verification::Judgement& judgement, const std::optional<double>& value);

} // namespace zeroline::session
