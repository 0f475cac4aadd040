#include "gui/session/ports_model.hpp"

#include "gui/session/live_feed.hpp"

#include <algorithm>
#include <filesystem>

namespace zeroline::session {

const std::string PortsModel::kVirtualBench = "virtual-bench";

PortsModel::PortsModel(QObject* parent) : QAbstractListModel(parent) { entries_ = there_now(); }

std::vector<PortsModel::Entry> PortsModel::there_now() const
{
    std::vector<Entry> now;
    for (const auto& port : offered_ports()) {
        now.push_back({port.path, port.description});
    }
    const auto listed = [&](const Entry& one) { return one.path == offered_; };
    if (!offered_.empty() && std::none_of(now.begin(), now.end(), listed)) {
        // What was used before stays in the list: that it is missing is worth knowing.
        const bool there = std::filesystem::exists(offered_);
        now.push_back({offered_, there ? std::string{} : tr("missing").toStdString()});
    }
    now.push_back({kVirtualBench, {}});
    return now;
}

void PortsModel::refresh()
{
    const auto now = there_now();
    for (int row = rowCount() - 1; row >= 0; --row) {
        const auto at = entries_.begin() + row;
        if (std::find(now.begin(), now.end(), *at) == now.end()) {
            beginRemoveRows({}, row, row);
            entries_.erase(at);
            endRemoveRows();
        }
    }
    for (std::size_t i = 0; i < now.size(); ++i) {
        if (i >= entries_.size() || entries_[i] != now[i]) {
            const int row = static_cast<int>(i);
            beginInsertRows({}, row, row);
            entries_.insert(entries_.begin() + row, now[i]);
            endInsertRows();
        }
    }
}

void PortsModel::offer(const std::string& path)
{
    offered_ = path == kVirtualBench ? std::string{} : path;
    refresh();
}

int PortsModel::row_of(const std::string& path) const
{
    const auto found =
        std::find_if(entries_.begin(), entries_.end(), [&](const Entry& one) { return one.path == path; });
    return found == entries_.end() ? -1 : static_cast<int>(found - entries_.begin());
}

std::string PortsModel::path_at(int row) const
{
    return row >= 0 && row < rowCount() ? entries_[static_cast<std::size_t>(row)].path : std::string{};
}

int PortsModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(entries_.size());
}

QVariant PortsModel::data(const QModelIndex& index, int role) const
{
    if (!index.isValid() || index.row() >= rowCount()) { // none is chosen
        return {};
    }
    const auto& entry = entries_[static_cast<std::size_t>(index.row())];
    const auto path = QString::fromStdString(entry.path);
    if (role == PathRole) {
        return path;
    }
    if (role != Qt::DisplayRole && role != Qt::EditRole && role != Qt::AccessibleTextRole) {
        return {};
    }
    if (entry.path == kVirtualBench) {
        return tr("virtual bench (simulated, no hardware)");
    }
    return entry.description.empty() ? path : tr("%1 \u2013 %2").arg(path, QString::fromStdString(entry.description));
}

} // namespace zeroline::session
