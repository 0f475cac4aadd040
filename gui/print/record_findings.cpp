#include "gui/print/record_parts.hpp"

#include <algorithm>

namespace zeroline::print {

namespace {

QString severity_words(const session::ResultFinding& finding)
{
    const auto* sign = finding.tone == session::Tone::critical      ? "\u26A0 "
                       : finding.tone == session::Tone::conditional ? "! "
                                                                    : "i ";
    return QString::fromUtf8(sign) + finding.severity;
}

/// A reason of the whole record; what it is about, where several share what it says.
struct ReasonLine {
    QString code;
    QStringList about;
    QString rest;
};

/// Those that say the same about several measurands become one line.
std::vector<ReasonLine> reasons_of(const session::ResultView& result)
{
    std::vector<ReasonLine> lines;
    for (const auto& reason : result.reasons) {
        const auto& text = reason.text;
        const auto colon = text.indexOf(": ");
        const auto about = colon > 0 ? text.left(colon) : QString();
        const auto rest = colon > 0 ? text.mid(colon) : text;
        const auto same = std::find_if(lines.begin(), lines.end(), [&](const ReasonLine& line) {
            return colon > 0 && line.code == reason.code && line.rest == rest;
        });
        if (same == lines.end()) {
            lines.push_back({reason.code, {about}, rest});
        } else if (!same->about.contains(about)) {
            same->about << about;
        }
    }
    return lines;
}

} // namespace

PageBlocks findings_part(const PrintedRecord& record)
{
    Table content{{{"", 17.0}, {"", 33.0}, {"", 140.0}}, {}, 6.8};
    for (const auto& reason : reasons_of(record.result)) {
        content.rows.push_back(
            {{.text = "reason"}, {.text = with_blanks(reason.code)}, {.text = reason.about.join("; ") + reason.rest}});
    }
    for (const auto& finding : record.result.findings) {
        content.rows.push_back({{.text = severity_words(finding), .bold = finding.tone != session::Tone::none},
                                {.text = with_blanks(finding.code)},
                                {.text = finding.text}});
    }
    if (content.rows.empty()) {
        return {};
    }
    PageBlocks blocks{heading("Reasons and findings (what the trace looks like, no proven causes)")};
    auto rows = table(content);
    blocks.insert(blocks.end(), std::next(rows.begin()), rows.end()); // without a head: it would be empty
    return blocks;
}

} // namespace zeroline::print
