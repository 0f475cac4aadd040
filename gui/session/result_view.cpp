#include "gui/session/result_view.hpp"

#include "analysis/record/record.hpp"
#include "gui/records/json_file.hpp"
#include "gui/session/after_the_verdict.hpp"
#include "gui/session/checklist.hpp"
#include "gui/session/tests_view.hpp"

#include <algorithm>

namespace zeroline::session {

using metrology::Outcome;

namespace {

/// What merely says what was assumed stands among the reasons, and is none.
bool explains(const QString& code)
{
    static const QStringList assumed{"house-tolerance", "low-ratio", "no-zero-after", "no-instrument", "skipped"};
    return !assumed.contains(code);
}

bool failed_by_a_value(const JudgementRow& row) { return metrology::is_fail(row.verdict) && row.worst; }

/// As it reads away from its judgement: with the measurand in front.
QString of_the_whole(const JudgementRow& row)
{
    return row.measurand + QStringLiteral(" (") + row.preset + QStringLiteral("): ") + row.reason;
}

ResultRow shown(const JudgementRow& row, const ResultWords& words)
{
    ResultRow shown;
    shown.is = row;
    shown.name = words.measurand(row);
    shown.prescribed = words.given(row, row.prescribed);
    shown.set = words.given(row, row.set);
    shown.displayed = words.given(row, row.displayed);
    shown.mean = words.measured(row, row.mean);
    shown.worst = words.measured(row, row.worst);
    shown.limits = words.limits(row);
    const auto& numerals = words.numerals();
    shown.uncertainty = numerals.uncertainty(row.expanded_uncertainty, row.known().decimals);
    shown.coverage = numerals.fixed(row.coverage_factor, 2);
    shown.ratio = numerals.fixed(row.ratio, row.ratio && *row.ratio < 100.0 ? 1 : 0);
    shown.probability =
        row.probability_outside ? numerals.fixed(100.0 * *row.probability_outside, 1) + " %" : numerals.nothing();
    shown.sign = sign_of(row.verdict, row.critical);
    shown.tone = tone_of(row.verdict, row.critical);
    shown.word = row.critical ? words.say(QT_TRANSLATE_NOOP("Result", "%1, critical")).arg(words.outcome(row.verdict))
                              : words.outcome(row.verdict);
    shown.sentence = words.sentence(row);
    return shown;
}

/// Takes a record apart once and puts the words together.
class Maker {
public:
    Maker(const RecordTree& record, Reader reader)
        : record_(record), words_(reader), on_screen_(reader == Reader::screen), rows_(record.judgements()),
          findings_(record.findings()), reasons_(record.reasons())
    {
    }

    ResultView made()
    {
        take_the_record();
        view_.state = state();
        view_.tone = tone_of(view_.outcome, view_.critical);
        view_.sign = sign_of(view_.outcome, view_.critical);
        view_.word = word();
        view_.exit_status = exit_status_of(view_.outcome);
        view_.banner = banner();
        view_.headline = headline();
        view_.sentence = sentence();
        view_.why = why();
        view_.to_do = to_do();
        view_.after = after_the_verdict(record_, words_);
        view_.accuracy = accuracy();
        view_.not_tested = not_tested();
        show_rows();
        return std::move(view_);
    }

private:
    void take_the_record()
    {
        view_.delivery = outcome_named(record_.text("/verdict"));
        view_.unit_accuracy = outcome_named(record_.text("/unit_accuracy"));
        view_.outcome = metrology::worse(view_.delivery, view_.unit_accuracy);
        view_.critical = record_.is_true("/critical");
        view_.origin = record_.text("/origin");
        view_.attempt = static_cast<int>(record_.figure("/attempt").value_or(1.0));
        view_.work_order = record_.text("/order/work_order");
        view_.contact = record_.text("/order/contact");
        view_.asset = record_.text("/unit/asset");
        view_.presets = record_.presets();
    }

    [[nodiscard]] bool has(const char* code) const
    {
        return std::any_of(findings_.begin(), findings_.end(),
                           [&](const FindingRow& finding) { return finding.code == QLatin1String(code); });
    }

    /// What is critical is a breath at the hose and nothing else: a person is connected, and the unit is not to blame.
    [[nodiscard]] bool only_a_breath() const
    {
        const auto of_the_unit = [](const FindingRow& finding) {
            return finding.severity == QLatin1String("critical") && finding.code != QLatin1String("breathing");
        };
        return has("breathing") && std::none_of(findings_.begin(), findings_.end(), of_the_unit) &&
               std::none_of(rows_.begin(), rows_.end(), [](const JudgementRow& row) { return row.critical; });
    }

    [[nodiscard]] bool by_a_value() const { return std::any_of(rows_.begin(), rows_.end(), failed_by_a_value); }

    /// The two questions have two answers.
    [[nodiscard]] bool differ() const
    {
        return view_.delivery != view_.unit_accuracy && view_.delivery != Outcome::not_judged &&
               view_.unit_accuracy != Outcome::not_judged;
    }

    [[nodiscard]] bool not_in_order() const
    {
        return view_.delivery == Outcome::fail && !view_.critical && reason_with("checklist") != nullptr &&
               std::none_of(rows_.begin(), rows_.end(), [](const JudgementRow& row) {
                   return row.verdict == Outcome::fail && row.against != QLatin1String("set");
               });
    }

    [[nodiscard]] State state() const
    {
        if (view_.critical) {
            return only_a_breath()                     ? State::breath
                   : metrology::is_fail(view_.outcome) ? State::out_of_use
                                                       : State::out_of_use_until_checked;
        }
        const bool delivered = view_.delivery == Outcome::pass || view_.delivery == Outcome::conditional_pass;
        if (delivered && metrology::is_fail(view_.unit_accuracy)) {
            return State::within_but_not_as_set;
        }
        switch (view_.outcome) {
        case Outcome::pass:
            return State::within;
        case Outcome::conditional_pass:
            return State::near_limit;
        case Outcome::conditional_fail:
            return State::narrowly_outside;
        case Outcome::fail:
            return not_in_order() ? State::not_in_order : State::outside;
        case Outcome::incomplete:
        case Outcome::not_judged:
            break;
        }
        return State::incomplete;
    }

    [[nodiscard]] QString word() const
    {
        return view_.state == State::breath ? words_.say(QT_TRANSLATE_NOOP("Result", "stopped"))
               : view_.critical             ? words_.say(QT_TRANSLATE_NOOP("Result", "critical"))
                                            : words_.outcome(view_.outcome);
    }

    [[nodiscard]] QStringList banner() const
    {
        QStringList lines;
        if (view_.simulated()) {
            lines << words_.say(kSimulated);
        }
        if (view_.origin == QLatin1String("imported")) {
            lines << words_.say(
                QT_TRANSLATE_NOOP("Result", "IMPORTED: the trace came as a file; nobody here saw it captured."));
        }
        if (!on_screen_ && !record_.at("/issue").is_object()) {
            lines << words_.say(QT_TRANSLATE_NOOP("Result", "Not sealed yet: nobody has signed this."));
        }
        return lines;
    }

    /// The answer to the first question; what is not in order is no value outside a limit.
    [[nodiscard]] QString delivery_words() const
    {
        return not_in_order() ? words_.say(QT_TRANSLATE_NOOP("Result", "Not in order"))
                              : words_.headline(view_.delivery);
    }

    [[nodiscard]] QString answers() const
    {
        if (!differ()) {
            return view_.delivery == Outcome::not_judged ? words_.headline(view_.unit_accuracy) : delivery_words();
        }
        const auto small = [](const QString& text) { return text.left(1).toLower() + text.mid(1); };
        return words_.say(QT_TRANSLATE_NOOP("Result", "As prescribed: %1. As set: %2"))
            .arg(small(delivery_words()), small(words_.headline(view_.unit_accuracy)));
    }

    [[nodiscard]] QString headline() const
    {
        if (view_.state == State::breath) {
            return words_.say(QT_TRANSLATE_NOOP("Result", "Stopped: run again"));
        }
        if (view_.state == State::out_of_use) {
            return words_.say(QT_TRANSLATE_NOOP("Result", "Keep this unit out of use"));
        }
        if (view_.state == State::out_of_use_until_checked) {
            return words_.say(QT_TRANSLATE_NOOP("Result", "Keep this unit out of use until it is checked again"));
        }
        const bool passed = view_.state == State::within || view_.state == State::near_limit;
        return answers() + (passed ? strength_missing(record_, words_) : QString());
    }

    [[nodiscard]] QString sentence() const
    {
        switch (view_.state) {
        case State::within:
            return words_.say(QT_TRANSLATE_NOOP(
                "Result", "It agreed with the prescription within the stated limits, on this occasion."));
        case State::near_limit:
            return words_.say(QT_TRANSLATE_NOOP(
                "Result", "Inside the limits, on this occasion, but nearer to one than the uncertainty."));
        case State::narrowly_outside:
            return words_.say(QT_TRANSLATE_NOOP("Result", "Outside a limit, but by less than the uncertainty."));
        case State::within_but_not_as_set:
            return words_.say(QT_TRANSLATE_NOOP(
                "Result", "It delivered what is prescribed, on this occasion, but not what it was set to."));
        case State::incomplete:
            return words_.say(QT_TRANSLATE_NOOP("Result", "Not everything that a verdict needs was seen. This says "
                                                          "neither that the unit agrees nor that it does not."));
        case State::breath:
            return words_.say(QT_TRANSLATE_NOOP(
                "Result", "Somebody seems to have been connected. This says nothing about the unit."));
        case State::out_of_use:
            return by_a_value() ? answers() + QStringLiteral(". ") + kept()
                                : words_.say(QT_TRANSLATE_NOOP("Result", "No value was judged; what is critical "
                                                                         "counts as a fail.")) +
                                      u' ' + kept();
        case State::out_of_use_until_checked:
            return answers() + u'.';
        case State::outside: // the figures say more
        case State::not_in_order:
            break;
        }
        return {};
    }

    [[nodiscard]] QString kept() const { return words_.say(QT_TRANSLATE_NOOP("Result", "This run is kept.")); }

    [[nodiscard]] const ReasonRow* reason_with(const char* code) const
    {
        const auto found = std::find_if(reasons_.begin(), reasons_.end(),
                                        [&](const ReasonRow& reason) { return reason.code == QLatin1String(code); });
        return found == reasons_.end() ? nullptr : &*found;
    }

    /// The judgement that the worse of both verdicts rests on: a critical one first.
    [[nodiscard]] const JudgementRow* decisive() const
    {
        const auto rests = [&](const JudgementRow& row) {
            return row.verdict == view_.outcome && !row.reason_code.isEmpty();
        };
        const auto critical = std::find_if(rows_.begin(), rows_.end(),
                                           [&](const JudgementRow& row) { return rests(row) && row.critical; });
        const auto found = critical != rows_.end() ? critical : std::find_if(rows_.begin(), rows_.end(), rests);
        return found == rows_.end() ? nullptr : &*found;
    }

    [[nodiscard]] QString why_critical() const
    {
        for (const auto& finding : findings_) {
            if (finding.severity == QLatin1String("critical")) {
                return words_.finding(finding);
            }
        }
        for (const auto* code : {"over-pressure", "peak-held", "reversed-order", "manual-sign"}) {
            for (const auto& reason : reasons_) {
                if (reason.code.endsWith(QLatin1String(code))) {
                    return words_.reason(reason);
                }
            }
        }
        return {};
    }

    [[nodiscard]] QString why_of_the_whole() const
    {
        for (const auto& reason : reasons_) {
            const bool of_a_judgement = std::any_of(rows_.begin(), rows_.end(), [&](const JudgementRow& row) {
                return row.reason_code == reason.code && row.verdict != view_.outcome;
            });
            if (explains(reason.code) && !of_a_judgement) {
                return words_.reason(reason);
            }
        }
        return {};
    }

    [[nodiscard]] QString why() const
    {
        if (view_.critical) {
            if (auto sentence = why_critical(); !sentence.isEmpty()) {
                return sentence;
            }
        }
        if (view_.outcome == Outcome::pass) {
            const auto judged = std::count_if(
                rows_.begin(), rows_.end(), [](const JudgementRow& row) { return row.verdict != Outcome::not_judged; });
            return words_.say(QT_TRANSLATE_NOOP("Result", "All %1 judgements lie within their limits.")).arg(judged);
        }
        const auto* row = decisive();
        if (row == nullptr) {
            return why_of_the_whole();
        }
        // What stopped more than this one says more than any of them.
        const bool whole = std::any_of(reasons_.begin(), reasons_.end(), [&](const ReasonRow& reason) {
            return reason.code == row->reason_code && reason.text == row->reason;
        });
        return whole ? words_.reason({row->reason_code, row->reason}) : words_.sentence(*row);
    }

    [[nodiscard]] QString replacement() const
    {
        const auto whom = view_.contact.isEmpty() ? QString() : QStringLiteral(" (%1)").arg(view_.contact);
        return words_.say(kReplacement).arg(whom);
    }

    [[nodiscard]] QStringList to_do() const
    {
        QStringList lines;
        if (view_.state == State::breath) {
            lines << words_.say(QT_TRANSLATE_NOOP(
                "Result", "Take the hose off the person and look to them; then run again with nobody connected."));
        } else if (view_.critical) {
            lines << replacement();
        }
        if (view_.not_given_out()) {
            lines << words_.say(kNotGivenOut);
            lines += record_.text("/order/occasion") == u"home-visit" ? QStringList{replacement()} : QStringList();
        }
        if (!view_.critical && metrology::is_fail(view_.outcome) && by_a_value()) {
            lines << words_.say(QT_TRANSLATE_NOOP("Result", "Check zero, plug and hose first."));
        }
        if (view_.state == State::outside || view_.state == State::not_in_order) {
            lines << kept();
        }
        if (has("settings-differ") && !metrology::is_fail(view_.unit_accuracy)) {
            lines << words_.say(QT_TRANSLATE_NOOP("Result", "Set otherwise than prescribed: no fault of the unit. Do "
                                                            "not change it unless you are authorised."));
        }
        if (has("calibration-lapsed")) {
            lines << words_.say(QT_TRANSLATE_NOOP(
                "Result", "The calibration had lapsed: indicative only, no statement of conformity."));
        }
        return lines;
    }

    [[nodiscard]] QString accuracy() const
    {
        const bool without_a_value = view_.critical && view_.unit_accuracy == Outcome::fail && !by_a_value();
        return words_.say(QT_TRANSLATE_NOOP("Result", "Unit accuracy (measured against what it was set to): %1."))
            .arg(without_a_value ? words_.say(QT_TRANSLATE_NOOP(
                                       "Result", "no value was measured; what is critical counts as a fail"))
                                 : words_.outcome(view_.unit_accuracy));
    }

    [[nodiscard]] QString not_tested() const
    {
        QStringList names;
        for (const auto& code : record_.texts("/not_tested")) {
            names << words_.not_tested(code);
        }
        const auto list = names.isEmpty()
                              ? words_.say(QT_TRANSLATE_NOOP("Result", "nothing that the procedure asks for"))
                              : names.join(QStringLiteral(", "));
        const auto text =
            words_.say(QT_TRANSLATE_NOOP("Result", "Pressures and times at a closed hose end only. Not tested: %1."))
                .arg(list);
        const auto and_also = [&](const char* what, const QStringList& of) {
            return of.isEmpty() ? QString() : u' ' + words_.say(what).arg(of.join(QStringLiteral("; ")));
        };
        return text + and_also(QT_TRANSLATE_NOOP("Result", "Not looked at: %1."), not_looked_at()) +
               and_also(QT_TRANSLATE_NOOP("Result", "Skipped: %1."), skipped());
    }

    [[nodiscard]] QStringList not_looked_at() const
    {
        QStringList list;
        for (const auto& item : not_answered(record_)) {
            list << words_.checklist_item(item);
        }
        return list;
    }

    [[nodiscard]] QStringList skipped() const
    {
        QStringList list;
        if (const auto& skipped = record_.at("/run/skipped"); skipped.is_array()) {
            for (const auto& one : skipped) {
                const auto text = [&](const char* key) {
                    return QString::fromStdString(one.value(key, std::string()));
                };
                list << words_.skipped(text("what"), text("preset"), text("reason"));
            }
        }
        return list;
    }

    void show_rows()
    {
        view_.ladder = ladder_view(record_, words_);
        view_.tests = tests_view(record_, words_);
        for (const auto& row : rows_) {
            if (!shown_by_a_ladder(record_, row)) {
                view_.rows.push_back(shown(row, words_));
            }
            if (row.has_limits() && !view_.sources.contains(row.basis)) {
                view_.sources << row.basis;
            }
        }
        for (const auto& finding : findings_) {
            const bool critical = finding.severity == QLatin1String("critical");
            const bool caution = finding.severity == QLatin1String("caution");
            view_.findings.push_back({finding.code, words_.severity(finding.severity), words_.finding(finding),
                                      critical  ? Tone::critical
                                      : caution ? Tone::conditional
                                                : Tone::none});
        }
        for (const auto& reason : reasons_) {
            add_reason(reason);
        }
        std::stable_partition(view_.reasons.begin(), view_.reasons.end(),
                              [](const ResultReason& reason) { return reason.tone == Tone::fail; });
    }

    /// What is said among the findings, or beside what was not tested, is not said again; a unit that is kept out of
    /// use is not given back, and nobody is blamed for it.
    void add_reason(const ReasonRow& reason)
    {
        const bool said = reason.code == QLatin1String("skipped") ||
                          (view_.critical && reason.code == QLatin1String("not-restored")) ||
                          std::any_of(findings_.begin(), findings_.end(), [&](const FindingRow& finding) {
                              return !finding.text.isEmpty() && reason.text.endsWith(finding.text);
                          });
        if (said) {
            return;
        }
        const auto row = std::find_if(rows_.begin(), rows_.end(), [&](const JudgementRow& one) {
            return one.reason_code == reason.code && of_the_whole(one) == reason.text;
        });
        const bool made = words_.own_sentences() && row != rows_.end();
        const bool fails = row != rows_.end() ? metrology::is_fail(row->verdict)
                                              : reason.code == QLatin1String("checklist") && not_in_order();
        const ResultReason shown{{reason.code, made ? words_.sentence(*row) : words_.reason(reason)},
                                 fails ? Tone::fail : Tone::none};
        const bool known = std::any_of(view_.reasons.begin(), view_.reasons.end(),
                                       [&](const ResultReason& one) { return one.text == shown.text; });
        if (!known) {
            view_.reasons.push_back(shown);
        }
    }

    const RecordTree& record_;
    ResultWords words_;
    bool on_screen_; ///< there it stands beside the name of the unit that nobody has signed
    std::vector<JudgementRow> rows_;
    std::vector<FindingRow> findings_;
    std::vector<ReasonRow> reasons_;
    ResultView view_;
};

} // namespace

bool ResultView::has_finding(const char* code) const
{
    return std::any_of(findings.begin(), findings.end(),
                       [&](const ResultFinding& finding) { return finding.code == QLatin1String(code); });
}

ResultView result_view(const RecordTree& record, Reader reader) { return Maker(record, reader).made(); }

ResultView result_view(const std::string& record_json, Reader reader)
{
    return result_view(RecordTree(records::parse_json(record_json)), reader);
}

ResultView live_view(const verification::WorkOrder& order, const verification::Assessment& assessment)
{
    verification::Evidence evidence;
    evidence.order = &order;
    const auto tree = record::to_json(evidence, assessment, {}, record::Parts::without_cycles);
    return result_view(RecordTree(nlohmann::json(tree)), Reader::screen);
}

ResultRow result_row(const JudgementRow& row, Reader reader) { return shown(row, ResultWords(reader)); }

} // namespace zeroline::session
