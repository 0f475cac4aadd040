#include "gui/session/result_words.hpp"

#include "gui/session/shown_number.hpp"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace zeroline::session {

using metrology::Outcome;
using verification::Assessment;
using verification::Judgement;

namespace {

struct Result {
    Q_DECLARE_TR_FUNCTIONS(Result)
};

struct Named {
    const char* code;
    const char* name;
};

constexpr Named kMeasurands[] = {
    {"insufflation-pressure", QT_TRANSLATE_NOOP("Result", "insufflation pressure")},
    {"exsufflation-pressure", QT_TRANSLATE_NOOP("Result", "exsufflation pressure")},
    {"insufflation-duration", QT_TRANSLATE_NOOP("Result", "insufflation duration")},
    {"exsufflation-duration", QT_TRANSLATE_NOOP("Result", "exsufflation duration")},
    {"pause-duration", QT_TRANSLATE_NOOP("Result", "pause duration")},
    {"pause-residual", QT_TRANSLATE_NOOP("Result", "pause residual")},
    {"return-to-zero", QT_TRANSLATE_NOOP("Result", "return to zero")},
    {"displayed-insufflation-pressure", QT_TRANSLATE_NOOP("Result", "displayed insufflation")},
    {"displayed-exsufflation-pressure", QT_TRANSLATE_NOOP("Result", "displayed exsufflation")},
    {"oscillation-frequency", QT_TRANSLATE_NOOP("Result", "oscillation frequency")},
    {"oscillation-amplitude", QT_TRANSLATE_NOOP("Result", "oscillation amplitude")},
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
    {"zero-after", QT_TRANSLATE_NOOP("Result", "zero after")},
};

template <std::size_t Count> QString named(const Named (&names)[Count], const std::string& code)
{
    const auto* const found =
        std::find_if(std::begin(names), std::end(names), [&](const Named& one) { return code == one.code; });
    if (found != std::end(names)) {
        return QCoreApplication::translate("Result", found->name);
    }
    return QString::fromStdString(code).replace(u'-', u' ');
}

bool is_pressure(const Judgement& judgement) { return judgement.unit == "cmH2O"; }
int decimals(const Judgement& judgement) { return is_pressure(judgement) ? 1 : 2; }

const Judgement* decisive(const Assessment& assessment, Outcome outcome)
{
    const auto is_it = [&](const Judgement& one) { return one.verdict == outcome && one.reason; };
    const auto critical = std::find_if(assessment.judgements.begin(), assessment.judgements.end(),
                                       [&](const Judgement& one) { return is_it(one) && one.critical; });
    if (critical != assessment.judgements.end()) {
        return &*critical;
    }
    const auto first = std::find_if(assessment.judgements.begin(), assessment.judgements.end(), is_it);
    return first != assessment.judgements.end() ? &*first : nullptr;
}

QString critical_sentence(const Assessment& assessment)
{
    const auto first =
        std::find_if(assessment.findings.begin(), assessment.findings.end(),
                     [](const verification::Finding& one) { return one.severity == verification::Severity::critical; });
    return first != assessment.findings.end() ? finding_text(*first) : QString();
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

QString sign_of(Tone tone)
{
    switch (tone) {
    case Tone::none:
        return QStringLiteral("\u2013");
    case Tone::pass:
        return QStringLiteral("\u2713");
    case Tone::conditional:
        return QStringLiteral("\u2248");
    case Tone::incomplete:
        return QStringLiteral("\u2026");
    case Tone::fail:
        return QStringLiteral("\u2717");
    case Tone::critical:
        break;
    }
    return QStringLiteral("\u203C");
}

QString outcome_word(Outcome outcome)
{
    switch (outcome) {
    case Outcome::not_judged:
        return Result::tr("not judged");
    case Outcome::pass:
        return Result::tr("pass");
    case Outcome::conditional_pass:
        return Result::tr("conditional pass");
    case Outcome::incomplete:
        return Result::tr("incomplete");
    case Outcome::conditional_fail:
        return Result::tr("conditional fail");
    case Outcome::fail:
        break;
    }
    return Result::tr("fail");
}

QString measurand_name(const std::string& measurand) { return named(kMeasurands, measurand); }
QString not_tested_name(const std::string& code) { return named(kNotTested, code); }

QString severity_word(verification::Severity severity)
{
    switch (severity) {
    case verification::Severity::note:
        return Result::tr("note");
    case verification::Severity::caution:
        return Result::tr("caution");
    case verification::Severity::critical:
        break;
    }
    return Result::tr("critical");
}

Tone verdict_tone(const Assessment& assessment)
{
    return tone_of(metrology::worse(assessment.verdict, assessment.unit_accuracy), assessment.critical);
}

QString verdict_words(const Assessment& assessment)
{
    switch (verdict_tone(assessment)) {
    case Tone::pass:
        return Result::tr("Agreed");
    case Tone::conditional:
        return assessment.verdict == Outcome::conditional_pass ? Result::tr("Agreed, near a limit")
                                                               : Result::tr("Outside limits, within uncertainty");
    case Tone::fail:
        return Result::tr("Outside limits");
    case Tone::critical:
        return only_a_breath(assessment) ? Result::tr("Stopped: run again") : Result::tr("Keep out of use");
    case Tone::none:
    case Tone::incomplete:
        break;
    }
    return Result::tr("Incomplete");
}

bool has_finding(const Assessment& assessment, const std::string& code)
{
    return std::any_of(assessment.findings.begin(), assessment.findings.end(),
                       [&](const verification::Finding& finding) { return finding.code == code; });
}

bool may_be_a_breath(const Assessment& assessment)
{
    return has_finding(assessment, "breathing") || has_finding(assessment, "swapped-ports");
}

bool only_a_breath(const Assessment& assessment)
{
    const auto of_the_unit = [](const verification::Finding& finding) {
        return finding.severity == verification::Severity::critical && finding.code != "breathing";
    };
    return assessment.critical && has_finding(assessment, "breathing") &&
           std::none_of(assessment.findings.begin(), assessment.findings.end(), of_the_unit) &&
           std::none_of(assessment.judgements.begin(), assessment.judgements.end(),
                        [](const Judgement& judgement) { return judgement.critical; });
}

QString why(const Assessment& assessment)
{
    if (assessment.critical) {
        if (const auto sentence = critical_sentence(assessment); !sentence.isEmpty()) {
            return sentence;
        }
    }
    const auto outcome = metrology::worse(assessment.verdict, assessment.unit_accuracy);
    if (const auto* judgement = decisive(assessment, outcome)) {
        return sentence_of(*judgement);
    }
    if (outcome == Outcome::pass) {
        return Result::tr("It agreed with the prescription within the stated limits, on this occasion.");
    }
    return assessment.reasons.empty() ? QString() : reason_text(assessment.reasons.front());
}

QString first_to_check(const Assessment& assessment)
{
    const auto outcome = metrology::worse(assessment.verdict, assessment.unit_accuracy);
    return metrology::is_fail(outcome) && !assessment.critical ? Result::tr(kCheckFirst) : QString();
}

QString skipped_text(const verification::Skipped& skipped)
{
    const auto reason = QString::fromStdString(skipped.reason);
    const auto preset = QString::fromStdString(skipped.preset);
    switch (skipped.what) {
    case verification::SpanKind::zero_before:
        return Result::tr("zero before (%1)").arg(reason);
    case verification::SpanKind::manual:
        return Result::tr("manual holds, preset '%1' (%2)").arg(preset, reason);
    case verification::SpanKind::automatic:
        return Result::tr("automatic cycles, preset '%1' (%2)").arg(preset, reason);
    case verification::SpanKind::zero_after:
        return Result::tr("zero after (%1)").arg(reason);
    case verification::SpanKind::ladder:
    case verification::SpanKind::leak_test:
    case verification::SpanKind::other:
        break;
    }
    return reason;
}

QString what_was_not_tested(const Assessment& assessment)
{
    QStringList names;
    for (const auto& code : assessment.not_tested) {
        names << not_tested_name(code);
    }
    auto text = Result::tr("Pressures and times at a closed hose end only. Not tested: %1.")
                    .arg(names.join(QStringLiteral(", ")));
    QStringList skipped;
    for (const auto& one : assessment.skipped) {
        skipped << skipped_text(one);
    }
    return skipped.isEmpty() ? text : text + u' ' + Result::tr("Skipped: %1.").arg(skipped.join(QStringLiteral("; ")));
}

namespace {

bool speaks(const Judgement& judgement)
{
    return judgement.reason && judgement.verdict != Outcome::not_judged && judgement.verdict != Outcome::pass;
}

QString capitalised(const QString& text) { return text.left(1).toUpper() + text.mid(1); }

QString subject(const Judgement& judgement) { return capitalised(measurand_name(judgement.measurand)); }

/// Records begin such a sentence with the code of the measurand: here it is read by a person.
QString with_a_name_first(const QString& sentence)
{
    for (const auto& one : kMeasurands) {
        const QLatin1String code(one.code);
        if (sentence.startsWith(code) && sentence.mid(code.size()).startsWith(u' ')) {
            return measurand_name(one.code) + sentence.mid(code.size());
        }
    }
    return sentence;
}

} // namespace

QStringList reasons(const Assessment& assessment)
{
    QStringList all;
    for (const auto& reason : assessment.reasons) {
        // Skipped steps stand with what was not tested, with their reasons; what a judgement says stands below.
        const bool of_a_judgement =
            std::any_of(assessment.judgements.begin(), assessment.judgements.end(),
                        [&](const Judgement& one) { return speaks(one) && one.reason->code == reason.code; });
        if (reason.code != "skipped" && !of_a_judgement) {
            all << capitalised(with_a_name_first(reason_text(reason)));
        }
    }
    for (const auto& judgement : assessment.judgements) {
        if (speaks(judgement)) {
            all << sentence_of(judgement);
        }
    }
    all.removeDuplicates();
    return all;
}

QString measured_text(const Judgement& judgement, const std::optional<double>& value)
{
    if (!value) {
        return QStringLiteral("\u2013");
    }
    return is_pressure(judgement) ? shown_signed(*value, decimals(judgement)) : shown(*value, decimals(judgement));
}

QString given_text(const Judgement& judgement, const std::optional<double>& value)
{
    if (!value) {
        return QStringLiteral("\u2013");
    }
    return is_pressure(judgement) ? shown_short_signed(*value) : shown_short(*value);
}

QString limits_text(const Judgement& judgement)
{
    // A limit about a measured mean has many decimals; nobody reads more than these.
    const double steps = is_pressure(judgement) ? 100.0 : 1000.0;
    const auto text = [&](double limit) { return given_text(judgement, std::round(limit * steps) / steps); };
    const auto& lower = judgement.limits.lower;
    const auto& upper = judgement.limits.upper;
    if (lower && upper) {
        return Result::tr("%1 to %2").arg(text(*lower), text(*upper));
    }
    if (upper) {
        return Result::tr("at most %1").arg(text(*upper));
    }
    return lower ? Result::tr("at least %1").arg(text(*lower)) : Result::tr("reported");
}

QString sentence_of(const Judgement& judgement)
{
    const bool by_figures = judgement.reason && judgement.worst && judgement.prescribed &&
                            (judgement.reason->code == "outside-limits" || judgement.reason->code == "near-limit");
    if (by_figures && judgement.worst_cycle) {
        return Result::tr("%1 (preset %2): %3 of %4 %5 in cycle %6; the limits are %7.")
            .arg(subject(judgement), QString::fromStdString(judgement.preset),
                 measured_text(judgement, judgement.worst), given_text(judgement, judgement.prescribed),
                 QString::fromStdString(judgement.unit), QString::number(*judgement.worst_cycle),
                 limits_text(judgement));
    }
    if (judgement.reason && judgement.reason->code == "too-few-cycles") {
        return Result::tr("%1 (preset %2): too few judged cycles (%3).")
            .arg(subject(judgement), QString::fromStdString(judgement.preset))
            .arg(judgement.n);
    }
    return judgement.reason
               ? Result::tr("%1 (preset %2): %3")
                     .arg(subject(judgement), QString::fromStdString(judgement.preset), reason_text(*judgement.reason))
               : QString();
}

} // namespace zeroline::session
