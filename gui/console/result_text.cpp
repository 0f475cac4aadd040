#include "gui/console/result_text.hpp"

#include "gui/console/text_table.hpp"
#include "gui/session/columns_that_give_way.hpp"

#include <algorithm>
#include <map>

namespace zeroline::console {

using Model = session::JudgementModel;
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

/// The heading of a column that may give way; empty for one that this table does not have.
std::string heading_of(Model::Column column)
{
    static const std::map<Model::Column, std::string> headings = {
        {Model::set, "set"},  {Model::displayed, "displayed"},  {Model::limits, "limits"}, {Model::mean, "mean"},
        {Model::cycles, "n"}, {Model::prescribed, "prescribed"}};
    const auto found = headings.find(column);
    return found == headings.end() ? std::string() : found->second;
}

/// Makes the table no wider than the screen, and says what that cost.
std::string narrowed(TextTable& table, std::optional<std::size_t> columns)
{
    if (!columns) {
        return table.text();
    }
    std::vector<std::string> gives_way;
    for (const auto column : session::kGivesWay) {
        gives_way.push_back(heading_of(column));
    }
    std::string no_room;
    for (const auto& heading : table.narrow_to(*columns, gives_way)) {
        no_room += (no_room.empty() ? "" : ", ") + heading;
    }
    return table.text() + (no_room.empty() ? "" : "no room for: " + no_room + "\n");
}

std::string table_of(const ResultView& result, const QString& preset, std::optional<std::size_t> columns)
{
    TextTable table({"preset '" + text_of(preset) + "'", "unit", heading_of(Model::prescribed), heading_of(Model::set),
                     heading_of(Model::displayed), heading_of(Model::mean), "worst", heading_of(Model::limits), "U",
                     heading_of(Model::cycles), "verdict"});
    for (const auto& row : result.rows) {
        if (row.is.preset == preset) {
            table.add({text_of(row.name), text_of(row.is.unit), text_of(row.prescribed), text_of(row.set),
                       text_of(row.displayed), text_of(row.mean), text_of(row.worst), text_of(row.limits),
                       text_of(row.uncertainty), std::to_string(row.is.n), text_of(row.word)});
        }
    }
    return narrowed(table, columns);
}

std::string ladder_of(const ResultView& result)
{
    std::string text;
    for (const auto& ladder : result.ladder) {
        TextTable table({"ladder, preset '" + text_of(ladder.preset) + "': " + text_of(ladder.name), "unit", "set",
                         "mean", "error", "U", "verdict"});
        for (const auto& at : ladder.settings) {
            table.add({"", text_of(ladder.unit), text_of(at.set), text_of(at.mean), text_of(at.error),
                       text_of(at.uncertainty), text_of(at.word)});
        }
        text += "\n" + table.text() + text_of(ladder.line) + "\n";
    }
    return text;
}

/// "PASS", "CONDITIONAL FAIL": what stands in front of the headline, so that it is found by eye and by other programs.
std::string code_of(const ResultView& result)
{
    const auto code = result.critical ? QStringLiteral("critical") : result.word;
    return text_of(code.toUpper());
}

std::string headline_of(const ResultView& result)
{
    auto text = code_of(result) + ": " + text_of(result.headline) + ".";
    text += result.sentence.isEmpty() ? "\n" : " " + text_of(result.sentence) + "\n";
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

std::string result_text(const ResultView& result, std::optional<std::size_t> columns)
{
    std::string text = lines_of(result.banner);
    text += "Work order " + text_of(result.work_order) + ", unit " + text_of(result.asset) + ", attempt " +
            std::to_string(result.attempt) + "\n" + text_of(result.not_tested) + "\n";
    for (const auto& preset : result.presets) {
        text += "\n" + table_of(result, preset, columns);
    }
    text += ladder_of(result) + (result.tests.isEmpty() ? "" : "\n" + lines_of(result.tests)) + sources_of(result);
    text +=
        "\n" + headline_of(result) + lines_of(result.to_do) + lines_of(result.after) + text_of(result.accuracy) + "\n";
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
