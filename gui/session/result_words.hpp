#pragma once

#include "analysis/metrology/decision.hpp"
#include "gui/session/numerals.hpp"
#include "gui/session/record_tree.hpp"

#include <QString>
#include <QStringList>

namespace zeroline::session {

/// Who reads a result. A screen has its language and its locale; a terminal and paper read English.
enum class Reader { screen, terminal, paper };

[[nodiscard]] Numerals numerals_for(Reader reader);

/// What a judgement looks like: never by colour alone, so each has a word and a sign too.
enum class Tone { none, pass, conditional, incomplete, fail, critical };

[[nodiscard]] Tone tone_of(metrology::Outcome outcome, bool critical = false);
[[nodiscard]] QString sign_of(metrology::Outcome outcome, bool critical = false);
/// Of something that is right or wrong and no judgement.
[[nodiscard]] int exit_status_of(metrology::Outcome outcome); ///< of a command (docs/formats.md)
[[nodiscard]] QString sign_of(Tone tone);

/// The words of a result in the language of its reader. A code that nobody knows stands as it is, with blanks for
/// hyphens.
class ResultWords {
public:
    explicit ResultWords(Reader reader);

    /// `source`: marked by QT_TRANSLATE_NOOP("Result", ...).
    [[nodiscard]] QString say(const char* source) const;
    [[nodiscard]] const Numerals& numerals() const noexcept { return numerals_; }
    /// Sentences are made here from codes and figures; else those that the record holds stand.
    [[nodiscard]] bool own_sentences() const noexcept { return own_sentences_; }

    [[nodiscard]] QString outcome(metrology::Outcome outcome) const; ///< "conditional pass"
    [[nodiscard]] QString headline(metrology::Outcome outcome) const;
    [[nodiscard]] QString measurand(const JudgementRow& row) const; ///< with "as set" where it is that
    [[nodiscard]] QString not_tested(const QString& code) const;
    [[nodiscard]] QString checklist_item(const std::string& item) const;
    [[nodiscard]] QString severity(const QString& word) const;
    [[nodiscard]] QString skipped(const QString& what, const QString& preset, const QString& reason) const;
    [[nodiscard]] QString finding(const FindingRow& finding) const; ///< "looks like ... because ... try ..."
    [[nodiscard]] QString reason(const ReasonRow& reason) const;

    [[nodiscard]] QString measured(const JudgementRow& row, const std::optional<double>& value) const;
    [[nodiscard]] QString given(const JudgementRow& row, const std::optional<double>& value) const;
    [[nodiscard]] QString limits(const JudgementRow& row) const; ///< "+38.00 to +42.00", "at most 2.00", "reported"
    /// One judgement as a sentence with its figures; empty without a reason.
    [[nodiscard]] QString sentence(const JudgementRow& row) const;

private:
    [[nodiscard]] QString sentence_of_figures(const JudgementRow& row, const QString& subject) const;

    Reader reader_;
    Numerals numerals_;
    bool own_sentences_;
};

/// The translated sentence of a finding's or reason's code; empty where the language of the screen has none (English:
/// the full text stands).
[[nodiscard]] QString translated_finding(const QString& code);
[[nodiscard]] QString translated_reason(const QString& code);

} // namespace zeroline::session
