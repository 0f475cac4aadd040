#include "gui/session/findings_model.hpp"

namespace zeroline::session {

using verification::Severity;

namespace {

Tone tone_of(Severity severity)
{
    switch (severity) {
    case Severity::critical:
        return Tone::critical;
    case Severity::caution:
        return Tone::conditional;
    case Severity::note:
        break;
    }
    return Tone::none;
}

} // namespace

void FindingsModel::show(const verification::Assessment& assessment)
{
    beginResetModel();
    rows_.clear();
    for (const auto& finding : assessment.findings) {
        rows_.push_back({QString::fromStdString(finding.code),
                         severity_word(finding.severity) + QStringLiteral(": ") + finding_text(finding),
                         tone_of(finding.severity)});
    }
    for (const auto& reason : reasons(assessment)) {
        rows_.push_back({QString(), reason, Tone::none});
    }
    if (rows_.empty()) {
        rows_.push_back({QString(), tr("Nothing stood out."), Tone::none});
    }
    endResetModel();
}

void FindingsModel::clear()
{
    beginResetModel();
    rows_.clear();
    endResetModel();
}

int FindingsModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

QVariant FindingsModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) {
        return {};
    }
    const auto& row = rows_[static_cast<std::size_t>(index.row())];
    switch (role) {
    case Qt::DisplayRole:
    case Qt::AccessibleTextRole:
        return row.text;
    case ToneRole:
        return static_cast<int>(row.tone);
    case CodeRole:
        return row.code;
    default:
        return {};
    }
}

} // namespace zeroline::session
