#include "gui/print/record_parts.hpp"

#include <algorithm>

namespace zeroline::print {

namespace {

QString severity_words(const QString& severity)
{
    return severity == "critical"  ? QString::fromUtf8("\u26A0 critical")
           : severity == "caution" ? "! caution"
                                   : "i note";
}

/// A reason of the whole record; what it is about, where several share what it says.
struct ReasonLine {
    QString code;
    QStringList about;
    QString rest;
};

bool is_a_finding(const SavedRecord& record, const nlohmann::json& reason)
{
    const auto text = QString::fromStdString(reason.value("text", ""));
    return std::any_of(record.findings.begin(), record.findings.end(),
                       [&](const FindingRow& finding) { return finding.text == text; });
}

/// Those that say the same about several measurands become one line; what stands among the findings is left to them.
std::vector<ReasonLine> reasons_of(const SavedRecord& record)
{
    std::vector<ReasonLine> lines;
    for (const auto& reason : record.at("/reasons")) {
        if (is_a_finding(record, reason)) {
            continue;
        }
        const auto code = QString::fromStdString(reason.value("code", ""));
        const auto text = with_blank_names(QString::fromStdString(reason.value("text", "")));
        const auto colon = text.indexOf(": ");
        const auto about = colon > 0 ? text.left(colon) : QString();
        const auto rest = colon > 0 ? text.mid(colon) : text;
        const auto same = std::find_if(lines.begin(), lines.end(), [&](const ReasonLine& line) {
            return colon > 0 && line.code == code && line.rest == rest;
        });
        if (same == lines.end()) {
            lines.push_back({code, {about}, rest});
        } else if (!same->about.contains(about)) {
            same->about << about;
        }
    }
    return lines;
}

} // namespace

Pieces findings_part(const SavedRecord& record)
{
    Table content{{{"", 17.0}, {"", 33.0}, {"", 140.0}}, {}, 6.8};
    for (const auto& reason : reasons_of(record)) {
        content.rows.push_back(
            {{.text = "reason"}, {.text = with_blanks(reason.code)}, {.text = reason.about.join("; ") + reason.rest}});
    }
    for (const auto& finding : record.findings) {
        content.rows.push_back({{.text = severity_words(finding.severity), .bold = finding.severity != "note"},
                                {.text = with_blanks(finding.code)},
                                {.text = finding.text}});
    }
    if (content.rows.empty()) {
        return {};
    }
    Pieces pieces{heading("Reasons and findings (what the trace looks like, no proven causes)")};
    auto rows = table(content);
    pieces.insert(pieces.end(), std::next(rows.begin()), rows.end()); // without a head: it would be empty
    return pieces;
}

} // namespace zeroline::print
