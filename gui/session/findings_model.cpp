#include "gui/session/findings_model.hpp"

namespace zeroline::session {

void FindingsModel::show(const ResultView& result)
{
    beginResetModel();
    rows_.clear();
    for (const auto& finding : result.findings) {
        rows_.push_back({finding.code, finding.severity + QStringLiteral(": ") + finding.text, finding.tone});
    }
    for (const auto& reason : result.reasons) {
        rows_.push_back({QString(), reason.text, Tone::none});
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
