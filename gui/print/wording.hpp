#pragma once

#include "gui/print/saved_record.hpp"
#include "gui/print/table.hpp"

namespace zeroline::print {

/// Numbers as a person of this language writes them: decimal mark, a true minus sign. Nothing becomes a dash.
class Numerals {
public:
    explicit Numerals(const std::string& language);

    [[nodiscard]] QString fixed(const std::optional<double>& value, int decimals) const;
    [[nodiscard]] QString signed_fixed(const std::optional<double>& value, int decimals) const;
    /// The shortest text that reads back: "1.5".
    [[nodiscard]] QString plain(const std::optional<double>& value) const;
    [[nodiscard]] QString signed_plain(const std::optional<double>& value) const;
    /// Two figures that count, as uncertainties are stated (JCGM 100:2008, 7.2.6), at least `decimals` places and
    /// no more than four.
    [[nodiscard]] QString uncertainty(const std::optional<double>& value, int decimals) const;

    /// Of one judgement: pressures with their sign.
    [[nodiscard]] QString measured(const JudgementRow& row, const std::optional<double>& value) const;
    [[nodiscard]] QString given(const JudgementRow& row, const std::optional<double>& value) const;
    [[nodiscard]] QString limits(const JudgementRow& row) const;

private:
    [[nodiscard]] QString in_words(std::string text) const;
    char mark_;
};

/// How a verdict is shown everywhere: a sign, a word, a colour (Okabe and Ito's palette, safe for the colour-blind);
/// each alone is enough.
struct Mark {
    QString sign, word;
    QColor ground, ink;
};
[[nodiscard]] Mark mark_of(const QString& verdict, bool critical);
[[nodiscard]] Cell mark_cell(const QString& verdict, bool critical);

/// The result in large words, the sentence that goes with it, and why.
struct Headline {
    Mark mark;
    QString words, sentence, why;
};
[[nodiscard]] Headline headline_of(const SavedRecord& record, const Numerals& numerals);

/// "insufflation-pressure" as words; the judgement against the setting says so.
[[nodiscard]] QString name_of(const JudgementRow& row);
/// Blanks for dashes: "electrical-safety" to "electrical safety".
[[nodiscard]] QString with_blanks(QString word);
/// A reason as it is shown: "pause-residual (day): ..." to "Pause residual (day): ...".
[[nodiscard]] QString with_blank_names(QString text);
/// "2026-11-25T09:12:04+01:00" to "2026-11-25 09:12 +01:00"; a day stays as it is.
[[nodiscard]] QString moment_text(const QString& rfc3339);
/// The day of the next check: so many months after the day of the run, the last day of the month where that day does
/// not exist. Empty where the record or the bench file gives none.
[[nodiscard]] QString next_due(const SavedRecord& record);

} // namespace zeroline::print
