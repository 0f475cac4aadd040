#include "gui/session/findings_model.hpp"

#include <algorithm>

namespace zeroline::session {

namespace {

/// Colour alone says nothing to whoever does not see it.
QString signed_text(Tone tone, const QString& text)
{
    switch (tone) {
    case Tone::fail:
        return sign_of(tone) + u' ' + text;
    case Tone::conditional:
        return QStringLiteral("! ") + text;
    case Tone::critical:
        return sign_of(metrology::Outcome::fail, true) + u' ' + text;
    case Tone::none:
    case Tone::pass:
    case Tone::incomplete:
        break;
    }
    return text;
}

/// What is critical stands first, then what makes the result a fail.
int weight_of(Tone tone) { return tone == Tone::critical ? 2 : tone == Tone::fail ? 1 : 0; }

} // namespace

void FindingsModel::show(const ResultView& result)
{
    beginResetModel();
    rows_.clear();
    for (const auto& finding : result.findings) {
        rows_.push_back({finding.code,
                         signed_text(finding.tone, finding.severity + QStringLiteral(": ") + finding.text),
                         finding.tone});
    }
    for (const auto& reason : result.reasons) {
        rows_.push_back({QString(), signed_text(reason.tone, reason.text), reason.tone});
    }
    std::stable_sort(rows_.begin(), rows_.end(),
                     [](const Row& a, const Row& b) { return weight_of(a.tone) > weight_of(b.tone); });
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
