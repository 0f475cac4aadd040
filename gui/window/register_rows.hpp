#pragma once

#include "gui/session/result_words.hpp"
#include "gui/window/register_reader.hpp"

#include <QAbstractTableModel>
#include <QStringList>

#include <atomic>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace zeroline::window {

/// A list of the register as a table that fetches its rows page by page as somebody scrolls down to them: however long
/// the list is, only what was looked at is held.
class RegisterRows : public QAbstractTableModel {
    Q_OBJECT
public:
    static constexpr std::int64_t kPage = 200;
    enum Role { ToneRole = Qt::UserRole + 1 };

    struct Column {
        std::string key; ///< of a row
        QString heading;
    };
    using Fetch = std::function<unit_register::Rows(const unit_register::UnitRegister&, const unit_register::Part&)>;

    explicit RegisterRows(RegisterReader& reader, QObject* parent = nullptr);
    ~RegisterRows() override;

    /// Another list, or the same by another search; rows come later, the first page at once.
    void show(std::vector<Column> columns, Fetch fetch, const std::string& search);
    /// Rows that are there already: one page, and no more.
    void put(std::vector<Column> columns, unit_register::Rows rows);
    /// All of the list that is shown, to be written as CSV.
    void ask_for_csv(std::function<void(const QString& csv)> take);
    [[nodiscard]] const unit_register::Rows& row(int number) const
    {
        return rows_.at(static_cast<std::size_t>(number));
    }
    [[nodiscard]] const std::vector<Column>& columns() const noexcept { return columns_; }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    [[nodiscard]] bool canFetchMore(const QModelIndex& parent) const override;
    void fetchMore(const QModelIndex& parent) override;

Q_SIGNALS:
    void fetched(); ///< a page has come in; none is missing where it is shorter than kPage

private:
    void take(const unit_register::Rows& page);

    RegisterReader& reader_;
    std::vector<Column> columns_;
    Fetch fetch_;
    std::string search_;
    std::vector<unit_register::Rows> rows_;
    std::shared_ptr<std::atomic<int>> asked_; ///< counts lists: an answer to an earlier one is dropped
    bool whole_ = true, fetching_ = false;
};

/// A value of the register in the words of the screen.
[[nodiscard]] QString register_text(const std::string& key, const unit_register::Rows& value);
/// What a state or verdict looks like; none for other columns.
[[nodiscard]] session::Tone register_tone(const std::string& key, const unit_register::Rows& value);

} // namespace zeroline::window
