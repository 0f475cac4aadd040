#pragma once

#include <QAbstractListModel>

#include <string>
#include <vector>

namespace zeroline::session {

/// The ports to choose from, as they are plugged in and pulled; last the virtual bench, marked as simulated, and what a
/// person typed before. One thread.
class PortsModel : public QAbstractListModel {
    Q_OBJECT
public:
    enum Role { PathRole = Qt::UserRole + 1 };
    /// Stands for the virtual bench inside the program where a path is expected.
    static const std::string kVirtualBench;

    explicit PortsModel(QObject* parent = nullptr);

    /// Looks at the system again; rows that stay keep their place.
    void refresh();
    /// Offers a path that the system does not list (a pseudo-terminal, say). Empty: nothing.
    void offer(const std::string& path);
    [[nodiscard]] int row_of(const std::string& path) const; ///< -1: not there
    [[nodiscard]] std::string path_at(int row) const;        ///< empty: no such row

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;

private:
    struct Entry {
        std::string path, description;
        bool operator==(const Entry&) const = default;
    };
    [[nodiscard]] std::vector<Entry> there_now() const;

    std::string offered_;
    std::vector<Entry> entries_;
};

} // namespace zeroline::session
