#include "gui/session/result_words.hpp"

#include "gui/session/checklist.hpp"

#include <QCoreApplication>

#include <algorithm>

namespace zeroline::session {

using metrology::Outcome;
using verification::MeasurandKind;

namespace {

struct Named {
    const char* code;
    const char* name;
};

constexpr Named kNotTested[] = {
    {"flow", QT_TRANSLATE_NOOP("Result", "flow")},
    {"strength-under-flow", QT_TRANSLATE_NOOP("Result", "strength under flow")},
    {"alarms", QT_TRANSLATE_NOOP("Result", "alarms")},
    {"filters", QT_TRANSLATE_NOOP("Result", "filters")},
    {"battery-duration", QT_TRANSLATE_NOOP("Result", "battery duration")},
    {"electrical-safety", QT_TRANSLATE_NOOP("Result", "electrical safety")},
    {"mask-and-hose-in-use", QT_TRANSLATE_NOOP("Result", "mask and hose in use")},
    {"signs", QT_TRANSLATE_NOOP("Result", "signs")},
    {"displays", QT_TRANSLATE_NOOP("Result", "displays")},
    {"hand-back", QT_TRANSLATE_NOOP("Result", "hand-back")},
    {"zero-before", QT_TRANSLATE_NOOP("Result", "zero before")},
    {"manual-holds", QT_TRANSLATE_NOOP("Result", "manual holds")},
    {"automatic-cycles", QT_TRANSLATE_NOOP("Result", "automatic cycles")},
    {"leak-test", QT_TRANSLATE_NOOP("Result", "leak test of the set-up")},
    {"zero-after", QT_TRANSLATE_NOOP("Result", "zero after")},
};

constexpr Named kSkipped[] = {
    {"zero-before", QT_TRANSLATE_NOOP("Result", "zero before (%1)")},
    {"manual", QT_TRANSLATE_NOOP("Result", "manual holds, preset '%1' (%2)")},
    {"automatic", QT_TRANSLATE_NOOP("Result", "automatic cycles, preset '%1' (%2)")},
    {"ladder", QT_TRANSLATE_NOOP("Result", "a setting of the ladder, preset '%1' (%2)")},
    {"leak-test", QT_TRANSLATE_NOOP("Result", "leak test of the set-up (%1)")},
    {"strength", QT_TRANSLATE_NOOP("Result", "strength with an orifice, preset '%1' (%2)")},
    {"zero-after", QT_TRANSLATE_NOOP("Result", "zero after (%1)")},
};

constexpr Named kSeverities[] = {
    {"note", QT_TRANSLATE_NOOP("Result", "note")},
    {"caution", QT_TRANSLATE_NOOP("Result", "caution")},
    {"critical", QT_TRANSLATE_NOOP("Result", "critical")},
};

template <std::size_t Count> const char* named(const Named (&names)[Count], const QString& code)
{
    const auto* const found = std::find_if(std::begin(names), std::end(names),
                                           [&](const Named& one) { return code == QLatin1String(one.code); });
    return found != std::end(names) ? found->name : nullptr;
}

QString capitalised(const QString& text) { return text.left(1).toUpper() + text.mid(1); }

QString translated(const char* source) { return QCoreApplication::translate("Result", source); }

bool screen_has_a_language()
{
    const auto* probe = QT_TRANSLATE_NOOP("Result", "reported");
    return translated(probe) != QLatin1String(probe);
}

/// Where a sentence begins with the code of a measurand, "pause-residual (day): ...": what is known of it, and where
/// its code ends.
std::pair<const verification::Measurand*, qsizetype> measurand_first(const QString& sentence)
{
    const auto end = sentence.indexOf(QLatin1String(" ("));
    return {end > 0 ? verification::measurand_named(sentence.left(end).toStdString()) : nullptr, end};
}

/// "pause-residual (day): ..." to "Pause residual (day): ..."
QString with_a_name_first(const QString& sentence)
{
    const auto [known, end] = measurand_first(sentence);
    return capitalised(known != nullptr ? QString::fromUtf8(known->word) + sentence.mid(end) : sentence);
}

/// The preset of "pause-residual (day): ...", colon included; empty where none is named.
QString preset_of(const QString& sentence, qsizetype end)
{
    const auto colon = sentence.indexOf(QLatin1String("): "), end);
    return colon < 0 ? QString() : sentence.mid(end, colon + 3 - end);
}

/// What it looks like, why, what to try: the figures stand before the last sentence, which says what to do.
QString with_why(const QString& text, const QString& figures)
{
    const auto last = std::max(text.lastIndexOf(QLatin1String(". ")), text.lastIndexOf(QLatin1String("? ")));
    const auto end = last < 0 ? text.size() - 1 : last;
    return text.left(end) + QStringLiteral(" (") + figures + u')' + text.mid(end);
}

} // namespace

Tone tone_of(Outcome outcome, bool critical)
{
    if (critical) {
        return Tone::critical;
    }
    switch (outcome) {
    case Outcome::not_judged:
        return Tone::none;
    case Outcome::pass:
        return Tone::pass;
    case Outcome::conditional_pass:
    case Outcome::conditional_fail:
        return Tone::conditional;
    case Outcome::incomplete:
        return Tone::incomplete;
    case Outcome::fail:
        break;
    }
    return Tone::fail;
}

QString sign_of(Outcome outcome, bool critical)
{
    if (critical) {
        return QStringLiteral("\u26A0");
    }
    switch (outcome) {
    case Outcome::not_judged:
        return QStringLiteral("\u2013");
    case Outcome::pass:
        return QStringLiteral("\u2713");
    case Outcome::conditional_pass:
        return QStringLiteral("(\u2713)");
    case Outcome::incomplete:
        return QStringLiteral("?");
    case Outcome::conditional_fail:
        return QStringLiteral("(\u2717)");
    case Outcome::fail:
        break;
    }
    return QStringLiteral("\u2717");
}

int exit_status_of(Outcome outcome)
{
    switch (outcome) {
    case Outcome::pass:
        return 0;
    case Outcome::fail:
    case Outcome::conditional_fail:
        return 1;
    case Outcome::conditional_pass:
        return 4;
    case Outcome::incomplete:
    case Outcome::not_judged:
        break;
    }
    return 3;
}

QString sign_of(Tone tone) { return sign_of(tone == Tone::pass ? Outcome::pass : Outcome::fail); }

Numerals numerals_for(Reader reader)
{
    return reader == Reader::screen     ? Numerals::of_the_screen()
           : reader == Reader::terminal ? Numerals::of_the_terminal()
                                        : Numerals("en");
}

ResultWords::ResultWords(Reader reader)
    : reader_(reader), numerals_(numerals_for(reader)),
      own_sentences_(reader == Reader::screen && screen_has_a_language())
{
}

QString ResultWords::say(const char* source) const
{
    return reader_ == Reader::screen ? translated(source) : QString::fromUtf8(source);
}

QString ResultWords::outcome(Outcome outcome) const
{
    switch (outcome) {
    case Outcome::not_judged:
        return say(QT_TRANSLATE_NOOP("Result", "not judged"));
    case Outcome::pass:
        return say(QT_TRANSLATE_NOOP("Result", "pass"));
    case Outcome::conditional_pass:
        return say(QT_TRANSLATE_NOOP("Result", "conditional pass"));
    case Outcome::incomplete:
        return say(QT_TRANSLATE_NOOP("Result", "incomplete"));
    case Outcome::conditional_fail:
        return say(QT_TRANSLATE_NOOP("Result", "conditional fail"));
    case Outcome::fail:
        break;
    }
    return say(QT_TRANSLATE_NOOP("Result", "fail"));
}

QString ResultWords::headline(Outcome outcome) const
{
    switch (outcome) {
    case Outcome::not_judged:
        return say(QT_TRANSLATE_NOOP("Result", "Not judged"));
    case Outcome::pass:
        return say(QT_TRANSLATE_NOOP("Result", "Within limits"));
    case Outcome::conditional_pass:
        return say(QT_TRANSLATE_NOOP("Result", "Within limits, near a limit"));
    case Outcome::incomplete:
        return say(QT_TRANSLATE_NOOP("Result", "Incomplete"));
    case Outcome::conditional_fail:
        return say(QT_TRANSLATE_NOOP("Result", "Outside limits, within uncertainty"));
    case Outcome::fail:
        break;
    }
    return say(QT_TRANSLATE_NOOP("Result", "Outside limits"));
}

QString ResultWords::measurand(const JudgementRow& row) const
{
    const auto* const word = row.known().word;
    auto name = *word != '\0' ? say(word) : with_blanks(row.measurand);
    if (!row.power.isEmpty()) {
        name = (row.power == QLatin1String("battery") ? say(QT_TRANSLATE_NOOP("Result", "%1, on battery"))
                                                      : say(QT_TRANSLATE_NOOP("Result", "%1, on mains")))
                   .arg(name);
    }
    return row.against == QLatin1String("set") ? say(QT_TRANSLATE_NOOP("Result", "%1, as set")).arg(name) : name;
}

QString ResultWords::not_tested(const QString& code) const
{
    const auto* name = named(kNotTested, code);
    return name != nullptr ? say(name) : with_blanks(code);
}

QString ResultWords::checklist_item(const std::string& item) const
{
    return reader_ == Reader::screen ? checklist_words(item) : QString::fromStdString(item);
}

QString ResultWords::severity(const QString& word) const
{
    const auto* name = named(kSeverities, word);
    return name != nullptr ? say(name) : word;
}

QString ResultWords::skipped(const QString& what, const QString& preset, const QString& reason) const
{
    const auto* pattern = named(kSkipped, what);
    if (pattern == nullptr) {
        return reason;
    }
    const auto text = say(pattern);
    return text.contains(QLatin1String("%2")) ? text.arg(preset, reason) : text.arg(reason);
}

QString ResultWords::finding(const FindingRow& finding) const
{
    const auto text = own_sentences_ ? translated_finding(finding.code) : QString();
    if (text.isEmpty()) {
        return finding.text;
    }
    QStringList figures;
    for (const auto& [name, value] : finding.figures) {
        const auto unit_at = name.lastIndexOf(u'_');
        figures << numerals_.fixed(value, 2) + (unit_at > 0 ? u' ' + name.mid(unit_at + 1) : QString());
    }
    return figures.isEmpty() ? text : with_why(text, figures.join(QStringLiteral("; ")));
}

QString ResultWords::reason(const ReasonRow& reason) const
{
    const auto text = own_sentences_ ? translated_reason(reason.code) : QString();
    if (text.isEmpty()) {
        return with_a_name_first(reason.text);
    }
    const auto [known, end] = measurand_first(reason.text);
    const auto preset = known != nullptr ? preset_of(reason.text, end) : QString();
    return preset.isEmpty() ? text : capitalised(translated(known->word)) + preset + text;
}

QString ResultWords::measured(const JudgementRow& row, const std::optional<double>& value) const
{
    const auto& known = row.known();
    return known.has_sign() ? numerals_.signed_fixed(value, known.decimals) : numerals_.fixed(value, known.decimals);
}

QString ResultWords::given(const JudgementRow& row, const std::optional<double>& value) const
{
    return row.known().has_sign() ? numerals_.signed_plain(value) : numerals_.plain(value);
}

QString ResultWords::limits(const JudgementRow& row) const
{
    if (row.lower && row.upper) {
        return say(QT_TRANSLATE_NOOP("Result", "%1 to %2")).arg(measured(row, row.lower), measured(row, row.upper));
    }
    if (row.upper) {
        return say(QT_TRANSLATE_NOOP("Result", "at most %1")).arg(measured(row, row.upper));
    }
    return row.lower ? say(QT_TRANSLATE_NOOP("Result", "at least %1")).arg(measured(row, row.lower))
                     : say(QT_TRANSLATE_NOOP("Result", "reported"));
}

QString ResultWords::sentence(const JudgementRow& row) const
{
    if (row.reason_code.isEmpty()) {
        return {};
    }
    const auto subject = capitalised(measurand(row));
    if (row.worst &&
        (row.reason_code == QLatin1String("outside-limits") || row.reason_code == QLatin1String("near-limit"))) {
        return sentence_of_figures(row, subject);
    }
    if (row.reason_code == QLatin1String("too-few-cycles")) {
        return say(QT_TRANSLATE_NOOP("Result", "%1 (preset %2): too few judged cycles (%3)."))
            .arg(subject, row.preset)
            .arg(row.n);
    }
    return say(QT_TRANSLATE_NOOP("Result", "%1 (preset %2): %3"))
        .arg(subject, row.preset, reason({row.reason_code, row.reason}));
}

QString ResultWords::sentence_of_figures(const JudgementRow& row, const QString& subject) const
{
    if (row.known().kind == MeasurandKind::displayed) {
        return say(QT_TRANSLATE_NOOP("Result", "%1 (preset %2): %3 shown, %4 %5 measured; the limits are %6."))
            .arg(subject, row.preset, measured(row, row.worst), measured(row, row.mean), row.unit, limits(row));
    }
    if (row.known().kind == MeasurandKind::difference) {
        return say(QT_TRANSLATE_NOOP("Result", "%1 (preset %2): %3 %4; the limits are %5."))
            .arg(subject, row.preset, measured(row, row.worst), row.unit, limits(row));
    }
    const auto cycle = row.worst_cycle ? QString::number(*row.worst_cycle) : numerals_.nothing();
    const auto& asked = row.against == QLatin1String("set") ? row.set : row.prescribed;
    if (!asked) {
        return say(QT_TRANSLATE_NOOP("Result", "%1 (preset %2): %3 %4 in cycle %5; the limits are %6."))
            .arg(subject, row.preset, measured(row, row.worst), row.unit, cycle, limits(row));
    }
    return say(QT_TRANSLATE_NOOP("Result", "%1 (preset %2): %3 of %4 %5 in cycle %6; the limits are %7."))
        .arg(subject, row.preset, measured(row, row.worst), given(row, asked), row.unit, cycle, limits(row));
}

} // namespace zeroline::session
