#include "gui/console/result_text.hpp"

#include "gui/console/text_table.hpp"

#include <algorithm>

namespace zeroline::console {

using session::ResultRow;
using session::ResultView;

namespace {

std::string text_of(const QString& words) { return words.toStdString(); }

std::string lines_of(const QStringList& lines)
{
    std::string text;
    for (const auto& line : lines) {
        text += text_of(line) + "\n";
    }
    return text;
}

std::string table_of(const ResultView& result, const QString& preset)
{
    TextTable table({"preset '" + text_of(preset) + "'", "unit", "prescribed", "set", "displayed", "mean", "worst",
                     "limits", "U", "n", "verdict"});
    for (const auto& row : result.rows) {
        if (row.is.preset == preset) {
            table.add({text_of(row.name), text_of(row.is.unit), text_of(row.prescribed), text_of(row.set),
                       text_of(row.displayed), text_of(row.mean), text_of(row.worst), text_of(row.limits),
                       text_of(row.uncertainty), std::to_string(row.is.n), text_of(row.word)});
        }
    }
    return table.text();
}

/// "PASS", "CONDITIONAL FAIL": what stands in front of the headline, so that it is found by eye and by other programs.
std::string code_of(const ResultView& result)
{
    const auto code = result.critical ? QStringLiteral("critical") : result.word;
    return text_of(code.toUpper());
}

std::string headline_of(const ResultView& result)
{
    auto text = code_of(result) + ": " + text_of(result.headline) + ". " + text_of(result.sentence) + "\n";
    // What was seen of a breath stands among the findings; here comes what to do.
    return result.why.isEmpty() || result.breath() ? text : text + text_of(result.why) + "\n";
}

std::string reasons_of(const ResultView& result)
{
    std::string text;
    for (const auto& reason : result.reasons) {
        text += "  " + text_of(reason.text) + "\n";
    }
    return text;
}

std::string sources_of(const ResultView& result)
{
    std::string text;
    for (const auto& source : result.sources) {
        text += "Limits from: " + text_of(source) + "\n";
    }
    return text;
}

std::string findings_of(const ResultView& result)
{
    std::string text;
    for (const auto& finding : result.findings) {
        const bool critical = finding.tone == session::Tone::critical;
        text += text_of(critical ? finding.severity.toUpper() : finding.severity) + "  " + text_of(finding.code) +
                ": " + text_of(finding.text) + "\n";
    }
    return text.empty() ? "" : "\nFindings\n" + text;
}

} // namespace

std::string result_text(const ResultView& result)
{
    std::string text = lines_of(result.banner);
    text += "Work order " + text_of(result.work_order) + ", unit " + text_of(result.asset) + ", attempt " +
            std::to_string(result.attempt) + "\n" + text_of(result.not_tested) + "\n";
    for (const auto& preset : result.presets) {
        text += "\n" + table_of(result, preset);
    }
    text += sources_of(result);
    text += "\n" + headline_of(result) + lines_of(result.to_do) + text_of(result.accuracy) + "\n";
    return text + reasons_of(result) + findings_of(result);
}

ExitStatus status_of(const ResultView& result) { return static_cast<ExitStatus>(result.exit_status); }

std::string one_line(const ResultView& result)
{
    auto word = text_of(session::ResultWords(session::Reader::terminal).outcome(result.outcome));
    constexpr std::size_t widest = 16; // "conditional pass"
    word.resize(std::max(word.size(), widest), ' ');
    std::string line = word + "  " + text_of(result.work_order) + "  " + text_of(result.asset);
    if (result.simulated()) {
        line += "  SIMULATED";
    }
    return result.critical ? line + "  CRITICAL" : line;
}

} // namespace zeroline::console
