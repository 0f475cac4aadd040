#include "gui/console/result_text.hpp"

#include "gui/console/text_table.hpp"
#include "gui/session/number_text.hpp"
#include "gui/session/result_words.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::console {

using metrology::Outcome;
using session::fixed_text;
using session::number_text;
using session::signed_fixed_text;
using session::signed_text;
using verification::Assessment;
using verification::Finding;
using verification::Judgement;
using verification::Severity;
using verification::WorkOrder;

namespace {

std::string with_blanks(std::string text)
{
    std::replace(text.begin(), text.end(), '-', ' ');
    return text;
}

bool is_pressure(const Judgement& judgement) { return judgement.unit == "cmH2O"; }

int decimals(const Judgement& judgement) { return is_pressure(judgement) ? 2 : 3; }

std::string measured(const Judgement& judgement, const std::optional<double>& value)
{
    if (!value) {
        return "-";
    }
    return is_pressure(judgement) ? signed_fixed_text(*value, decimals(judgement))
                                  : fixed_text(*value, decimals(judgement));
}

std::string given(const Judgement& judgement, const std::optional<double>& value)
{
    if (!value) {
        return "-";
    }
    return is_pressure(judgement) ? signed_text(*value) : number_text(*value);
}

/// Two figures that count, as uncertainties are stated (JCGM 100:2008, 7.2.6).
std::string uncertainty(const Judgement& judgement)
{
    if (!judgement.expanded_uncertainty) {
        return "-";
    }
    const double value = *judgement.expanded_uncertainty;
    int digits = decimals(judgement);
    for (double step = std::pow(10.0, -digits); value > 0.0 && value < 10.0 * step && digits < 6; step /= 10.0) {
        ++digits;
    }
    return fixed_text(value, digits);
}

std::string limits(const Judgement& judgement)
{
    const auto& lower = judgement.limits.lower;
    const auto& upper = judgement.limits.upper;
    const auto text = [&](double limit) {
        // Limits come from sums such as 1.5 + 0.15; nobody wants to read the last bit of those.
        return is_pressure(judgement) ? signed_fixed_text(limit, 2) : fixed_text(limit, 3);
    };
    if (lower && upper) {
        return text(*lower) + " to " + text(*upper);
    }
    if (upper) {
        return "at most " + text(*upper);
    }
    return lower ? "at least " + text(*lower) : "reported";
}

std::string name_of(const Judgement& judgement)
{
    auto name = with_blanks(judgement.measurand);
    if (judgement.against == "set") {
        name += " (as set)";
    }
    return name;
}

std::string word_for(const Judgement& judgement)
{
    if (judgement.verdict == Outcome::not_judged) {
        return "not judged";
    }
    return with_blanks(std::string(metrology::word_of(judgement.verdict))) + (judgement.critical ? ", CRITICAL" : "");
}

std::string table_of(const Assessment& assessment, const std::string& preset)
{
    TextTable table({"preset '" + preset + "'", "unit", "prescribed", "set", "displayed", "mean", "worst", "limits",
                     "U", "n", "verdict"});
    for (const auto& judgement : assessment.judgements) {
        if (judgement.preset == preset) {
            table.add({name_of(judgement), judgement.unit, given(judgement, judgement.prescribed),
                       given(judgement, judgement.set), given(judgement, judgement.displayed),
                       measured(judgement, judgement.mean), measured(judgement, judgement.worst), limits(judgement),
                       uncertainty(judgement), std::to_string(judgement.n), word_for(judgement)});
        }
    }
    return table.text();
}

/// Something was measured outside its limits; what is critical may fail a unit by what was seen alone.
bool failed_by_a_value(const Assessment& assessment, bool against_set)
{
    return std::any_of(assessment.judgements.begin(), assessment.judgements.end(), [&](const Judgement& judgement) {
        return metrology::is_fail(judgement.verdict) && judgement.worst && (judgement.against == "set") == against_set;
    });
}

std::string headline(Outcome verdict)
{
    switch (verdict) {
    case Outcome::pass:
        return "PASS: agreed with the prescription within the stated limits, on this occasion.";
    case Outcome::conditional_pass:
        return "CONDITIONAL PASS: inside the limits, but nearer to one than the uncertainty, on this occasion.";
    case Outcome::conditional_fail:
        return std::string("CONDITIONAL FAIL: outside a limit, but by less than the uncertainty. ") +
               session::kCheckFirst;
    case Outcome::fail:
        return std::string("FAIL: outside limits. ") + session::kCheckFirst;
    case Outcome::incomplete:
    case Outcome::not_judged:
        break;
    }
    return "INCOMPLETE: not everything that a verdict needs was seen.";
}

/// First what to do with the unit, then what the verdict rests on: a unit that is kept out of use is not checked again
/// before anything else.
std::string critical_headline(const Assessment& assessment)
{
    const bool failed = metrology::is_fail(assessment.verdict);
    const std::string kept = failed ? failed_by_a_value(assessment, false)
                                          ? "FAIL: outside limits; this run is kept."
                                          : "FAIL: by what is critical; no value was judged. This run is kept."
                                    : headline(assessment.verdict);
    if (session::only_a_breath(assessment)) {
        return "CRITICAL: is someone connected? Take the hose off the person; then run again with nobody connected.\n" +
               kept + " This says nothing about the unit.";
    }
    std::string why;
    for (const auto& finding : assessment.findings) {
        if (why.empty() && finding.severity == Severity::critical) {
            why = " " + finding.text;
        }
    }
    const std::string until = failed ? "." : " until the check has been repeated.";
    return "CRITICAL: keep this unit out of use" + until + why + "\n" + kept;
}

std::string accuracy_text(const Assessment& assessment)
{
    const std::string about = "Unit accuracy (measured against what it was set to): ";
    const bool failed = assessment.unit_accuracy == Outcome::fail;
    return about +
           (assessment.critical && failed && !failed_by_a_value(assessment, true)
                ? "no value was measured; what is critical counts as a fail"
                : with_blanks(std::string(metrology::word_of(assessment.unit_accuracy)))) +
           ".\n";
}

std::string word_of(Severity severity)
{
    switch (severity) {
    case Severity::note:
        return "note";
    case Severity::caution:
        return "caution";
    case Severity::critical:
        break;
    }
    return "CRITICAL";
}

std::string listed(const std::vector<std::string>& items)
{
    std::string text;
    for (const auto& item : items) {
        text += (text.empty() ? "" : ", ") + with_blanks(item);
    }
    return text;
}

/// The sentences why; what a judgement says of itself stands among them, and what a finding says stands there alone.
std::string reasons_of(const Assessment& assessment)
{
    std::string text;
    for (const auto& reason : assessment.reasons) {
        const bool a_finding = std::any_of(assessment.findings.begin(), assessment.findings.end(),
                                           [&](const Finding& finding) { return reason.text.ends_with(finding.text); });
        if (!a_finding) {
            text += "  " + reason.text + "\n";
        }
    }
    return text;
}

std::string sources_of(const Assessment& assessment)
{
    std::vector<std::string> sources;
    for (const auto& judgement : assessment.judgements) {
        const bool used = judgement.limits.lower || judgement.limits.upper;
        if (used && std::find(sources.begin(), sources.end(), judgement.basis) == sources.end()) {
            sources.push_back(judgement.basis);
        }
    }
    std::string text;
    for (const auto& source : sources) {
        text += "Limits from: " + source + "\n";
    }
    return text;
}

std::string findings_of(const Assessment& assessment)
{
    std::string text;
    for (const auto& finding : assessment.findings) {
        text += word_of(finding.severity) + "  " + finding.code + ": " + finding.text + "\n";
    }
    return text.empty() ? "" : "\nFindings\n" + text;
}

std::string who_to_call(const WorkOrder& order, const Assessment& assessment)
{
    if (!assessment.critical || session::only_a_breath(assessment)) {
        return {};
    }
    const std::string contact = order.contact.empty() ? "" : " (" + order.contact + ")";
    return "If a person depends on this unit, arrange a replacement now" + contact +
           "; do not leave them without one.\n";
}

} // namespace

std::string result_text(const WorkOrder& order, const Assessment& assessment)
{
    std::string text;
    if (assessment.origin == verification::Origin::simulated) {
        text += "SIMULATED: made on a pseudo-terminal. It says nothing about any unit.\n";
    }
    text += "Work order " + order.work_order + ", unit " + order.unit.asset + ", attempt " +
            std::to_string(assessment.attempt) + "\n";
    text += "Pressures and times at a closed hose end only. Not tested: " + listed(assessment.not_tested) + ".\n";
    for (const auto& preset : order.presets) {
        text += "\n" + table_of(assessment, preset.name);
    }
    text += sources_of(assessment);
    text += "\n" + (assessment.critical ? critical_headline(assessment) : headline(assessment.verdict)) + "\n" +
            who_to_call(order, assessment);
    text += accuracy_text(assessment);
    return text + reasons_of(assessment) + findings_of(assessment);
}

std::string one_line(const WorkOrder& order, const Assessment& assessment)
{
    auto word =
        with_blanks(std::string(metrology::word_of(metrology::worse(assessment.verdict, assessment.unit_accuracy))));
    constexpr std::size_t widest = 16; // "conditional pass"
    word.resize(std::max(word.size(), widest), ' ');
    std::string line = word + "  " + order.work_order + "  " + order.unit.asset;
    if (assessment.origin == verification::Origin::simulated) {
        line += "  SIMULATED";
    }
    return assessment.critical ? line + "  CRITICAL" : line;
}

} // namespace zeroline::console
