#include "gui/print/wording.hpp"

#include "gui/session/number_text.hpp"
#include "gui/session/result_words.hpp"

#include <QDate>

#include <algorithm>
#include <cmath>

namespace zeroline::print {

namespace {

const QString kMinus = QString::fromUtf8("\u2212");
const QString kDash = QString::fromUtf8("\u2013");

const QColor kPassGround(0x00, 0x9E, 0x73);
const QColor kConditionalGround(0xE6, 0x9F, 0x00);
const QColor kFailGround(0xD5, 0x5E, 0x00);
const QColor kUnseenGround(0xDD, 0xDD, 0xDD);

int decimals_of(const JudgementRow& row) { return row.is_pressure() ? 2 : row.unit == "Hz" ? 2 : 3; }

/// How bad a verdict is, worst last; a judgement that counts for nothing comes first.
int rank_of(const QString& verdict)
{
    static const QStringList order{"not-judged", "pass", "conditional-pass", "incomplete", "conditional-fail", "fail"};
    return static_cast<int>(order.indexOf(verdict));
}

/// The judgement that the whole verdict rests on: the worst, a critical one first.
const JudgementRow* deciding(const SavedRecord& record)
{
    const JudgementRow* worst = nullptr;
    const auto weight = [](const JudgementRow& row) { return 2 * rank_of(row.verdict) + (row.critical ? 1 : 0); };
    for (const auto& row : record.judgements) {
        if (row.against != "set" && (worst == nullptr || weight(row) > weight(*worst))) {
            worst = &row;
        }
    }
    return worst;
}

QString capital(QString text)
{
    if (!text.isEmpty()) {
        text[0] = text[0].toUpper();
    }
    return text;
}

QString sentence_about(const JudgementRow& row, const Numerals& numerals)
{
    const auto begin = capital(name_of(row)) + " (preset " + row.preset + ")";
    if (!row.worst) {
        return begin + ": " + row.reason;
    }
    const bool low = row.lower && *row.worst < *row.lower;
    const auto& limit = low ? row.lower : row.upper;
    QString text = begin + (row.against == "measured" ? " shown as " : " reached ") + numerals.measured(row, row.worst);
    if (row.against == "measured") {
        text += ", measured " + numerals.measured(row, row.mean);
    } else if (row.prescribed) {
        text += " of " + numerals.given(row, row.prescribed);
    }
    return text + " " + row.unit + "; the limit is " + numerals.measured(row, limit) + ".";
}

QString count_of_judged(const SavedRecord& record)
{
    const auto judged = std::count_if(record.judgements.begin(), record.judgements.end(), [](const JudgementRow& row) {
        return row.against != "set" && row.verdict != "not-judged";
    });
    return QString::number(judged);
}

/// The first reason of the whole record that `wanted` takes by its code.
template <typename Wanted> QString first_reason(const SavedRecord& record, Wanted wanted)
{
    for (const auto& reason : record.at("/reasons")) {
        if (wanted(QString::fromStdString(reason.value("code", "")))) {
            return with_blank_names(QString::fromStdString(reason.value("text", "")));
        }
    }
    return {};
}

/// What merely says what was assumed stands further down.
bool explains(const QString& code)
{
    static const QStringList assumed{"house-tolerance", "low-ratio", "no-zero-after", "no-instrument"};
    return !assumed.contains(code);
}

QString why_critical(const SavedRecord& record)
{
    static const QStringList codes{"over-pressure", "peak-held", "reversed-order", "manual-sign"};
    const auto reason = first_reason(record, [](QString code) { return codes.contains(code.remove("possible-")); });
    if (!reason.isEmpty()) {
        return reason;
    }
    for (const auto& finding : record.findings) {
        if (finding.severity == "critical") {
            return finding.text;
        }
    }
    return {};
}

QString why(const SavedRecord& record, const Numerals& numerals)
{
    const auto verdict = record.text("/verdict");
    const auto* row = deciding(record);
    const auto reason = first_reason(record, explains);
    if (record.critical() && !why_critical(record).isEmpty()) {
        return why_critical(record);
    }
    if (verdict == "pass") {
        return "All " + count_of_judged(record) + " judgements lie within their limits.";
    }
    // A missing piece of evidence stops every judgement: its own words say more than any of them.
    if (row == nullptr || verdict == "incomplete" || rank_of(row->verdict) < rank_of(verdict)) {
        return !reason.isEmpty() || row == nullptr ? reason : capital(name_of(*row)) + ": " + row->reason;
    }
    return sentence_about(*row, numerals);
}

Mark critical_mark() { return {QString::fromUtf8("\u26A0"), "critical", Qt::black, kFailGround.lighter(140)}; }

} // namespace

Numerals::Numerals(const std::string& language) : mark_(language.starts_with("de") ? ',' : '.') {}

QString Numerals::in_words(std::string text) const
{
    std::replace(text.begin(), text.end(), '.', mark_);
    return QString::fromStdString(text).replace('-', kMinus);
}

QString Numerals::fixed(const std::optional<double>& value, int decimals) const
{
    return value ? in_words(session::fixed_text(*value, decimals)) : kDash;
}

QString Numerals::signed_fixed(const std::optional<double>& value, int decimals) const
{
    return value ? in_words(session::signed_fixed_text(*value, decimals)) : kDash;
}

QString Numerals::plain(const std::optional<double>& value) const
{
    return value ? in_words(session::number_text(*value)) : kDash;
}

QString Numerals::signed_plain(const std::optional<double>& value) const
{
    return value ? in_words(session::signed_text(*value)) : kDash;
}

QString Numerals::uncertainty(const std::optional<double>& value, int decimals) const
{
    constexpr int kMostDecimals = 4;
    int digits = decimals;
    for (double step = std::pow(10.0, -digits); value && *value > 0.0 && *value < 10.0 * step && digits < kMostDecimals;
         step /= 10.0) {
        ++digits;
    }
    return fixed(value, digits);
}

QString Numerals::measured(const JudgementRow& row, const std::optional<double>& value) const
{
    return row.is_pressure() ? signed_fixed(value, decimals_of(row)) : fixed(value, decimals_of(row));
}

QString Numerals::given(const JudgementRow& row, const std::optional<double>& value) const
{
    return row.is_pressure() ? signed_plain(value) : plain(value);
}

QString Numerals::limits(const JudgementRow& row) const
{
    if (row.lower && row.upper) {
        return measured(row, row.lower) + " to " + measured(row, row.upper);
    }
    if (row.upper) {
        return "at most " + measured(row, row.upper);
    }
    return row.lower ? "at least " + measured(row, row.lower) : "reported only";
}

Mark mark_of(const QString& verdict, bool critical)
{
    if (critical) {
        return critical_mark();
    }
    if (verdict == "pass") {
        return {QString::fromUtf8("\u2713"), "pass", kPassGround, Qt::black};
    }
    if (verdict == "conditional-pass") {
        return {QString::fromUtf8("(\u2713)"), "conditional pass", kConditionalGround, Qt::black};
    }
    if (verdict == "conditional-fail") {
        return {QString::fromUtf8("(\u2717)"), "conditional fail", kConditionalGround, Qt::black};
    }
    if (verdict == "fail") {
        return {QString::fromUtf8("\u2717"), "fail", kFailGround, Qt::black};
    }
    if (verdict == "incomplete") {
        return {"?", "incomplete", kUnseenGround, Qt::black};
    }
    return {kDash, "not judged", Qt::white, Qt::black};
}

Cell mark_cell(const QString& verdict, bool critical)
{
    const auto mark = mark_of(verdict, critical);
    return {.text = mark.word,
            .bold = verdict != "not-judged" && verdict != "pass",
            .sign = mark.sign,
            .ground = mark.ground,
            .sign_colour = mark.ink};
}

Headline headline_of(const SavedRecord& record, const Numerals& numerals)
{
    const auto verdict = record.text("/verdict");
    Headline head{mark_of(verdict, record.critical()), {}, {}, why(record, numerals)};
    if (record.only_a_breath()) {
        head.words = "Stopped: run again";
        head.sentence = "Somebody seems to have been connected: run again with nobody connected. This says nothing "
                        "about the unit.";
    } else if (record.critical()) {
        head.words = "Keep out of use";
        head.sentence = "Keep this unit out of use" +
                        QString(verdict == "incomplete" ? " until the check has been repeated." : ".");
    } else if (verdict == "pass") {
        head.words = "Agreed with the prescription";
        head.sentence = "within the stated limits, on this occasion.";
    } else if (verdict == "conditional-pass") {
        head.words = "Agreed, close to a limit";
        head.sentence = "Inside the limits, on this occasion, but nearer to one than the uncertainty.";
    } else if (verdict == "conditional-fail") {
        head.words = "Outside limits, narrowly";
        head.sentence = "Outside a limit, but by less than the uncertainty. " + QString::fromUtf8(session::kCheckFirst);
    } else if (verdict == "fail") {
        head.words = "Outside limits";
        head.sentence = QString::fromUtf8(session::kCheckFirst);
    } else {
        head.words = "Incomplete";
        head.sentence = "Not everything that a verdict needs was seen. This says neither that the unit agrees nor that "
                        "it does not.";
    }
    return head;
}

QString with_blank_names(QString text)
{
    const auto colon = text.indexOf(": ");
    const auto name = text.left(colon);
    // "pause-residual (day): ..." begins with the name of a measurand; a sentence has blanks before its first colon.
    return colon > 0 && name.section(" (", 0, 0).count(' ') == 0 ? capital(with_blanks(name)) + text.mid(colon) : text;
}

QString name_of(const JudgementRow& row)
{
    auto name = with_blanks(row.measurand);
    if (row.against == "measured") {
        // The table has no room for "displayed insufflation pressure", and nothing but pressures is displayed.
        name.remove(" pressure");
    }
    return name + (row.against == "set" ? " (as set)" : "");
}

QString with_blanks(QString word) { return word.replace('-', ' '); }

QString moment_text(const QString& rfc3339)
{
    constexpr int kMinutes = 16; // "2026-11-25T09:12"
    if (rfc3339.size() <= kMinutes) {
        return rfc3339;
    }
    const auto zone = std::max({rfc3339.lastIndexOf('+'), rfc3339.lastIndexOf('Z'), rfc3339.indexOf('-', kMinutes)});
    return rfc3339.left(kMinutes).replace('T', ' ') + (zone > 0 ? " " + rfc3339.mid(zone) : "");
}

QString next_due(const SavedRecord& record)
{
    const auto stated = record.text("/next_due");
    if (!stated.isEmpty()) {
        return stated;
    }
    const auto day = QDate::fromString(record.text("/run/began").left(10), Qt::ISODate);
    return record.interval_months && day.isValid() ? day.addMonths(*record.interval_months).toString(Qt::ISODate)
                                                   : QString();
}

} // namespace zeroline::print
