#pragma once

#include "gui/session/result_view.hpp"

#include <QAbstractTableModel>

#include <string>
#include <vector>

namespace zeroline::session {

/// What a card of the bench shows of one row. A text that is not known is empty; what was not measured is a dash.
struct NumberCard {
    QString name;           ///< "insufflation pressure"
    QString measured, unit; ///< the mean so far, or what was held by hand
    QString beside;         ///< "prescribed +40, displayed +39.8"; what it was set to where that differs
    QString verdict;        ///< "so far ✓, 2 of 5"
    Tone tone = Tone::none;

    [[nodiscard]] QString spoken() const;
};

/// The numbers of a run as a table: prescribed, set, displayed, measured, and what they are judged to be.
///
/// Before the first cycle it shows what is prescribed; from then on it is filled cycle by cycle. One thread.
class JudgementModel : public QAbstractTableModel {
    Q_OBJECT
public:
    enum Column {
        measurand,
        prescribed,
        set,
        displayed,
        mean,
        worst,
        limits,
        verdict,
        basis,
        cycles,
        uncertainty,
        coverage,
        ratio,
        probability
    };
    enum Role { ToneRole = Qt::UserRole + 1 };

    /// Those of the bench, of the result, and of the result with what one key adds.
    [[nodiscard]] static std::vector<Column> bench_columns();
    [[nodiscard]] static std::vector<Column> result_columns();
    [[nodiscard]] static std::vector<Column> detail_columns();

    explicit JudgementModel(std::vector<Column> columns, QObject* parent = nullptr);

    [[nodiscard]] NumberCard card(int row) const;
    [[nodiscard]] Column column(int section) const { return columns_[static_cast<std::size_t>(section)]; }
    void set_columns(std::vector<Column> columns);
    /// What is prescribed, nothing measured yet. An empty preset: all presets.
    void begin(const verification::WorkOrder& order, const std::string& preset);
    /// The rows of `preset` (empty: all).
    void show(const ResultView& result, const std::string& preset);
    /// While the run goes on: how far it has got of `cycles_needed`, and what was held by hand until there is a mean.
    /// What is asked of a setting that nobody has run at yet is left out.
    void show_live(const ResultView& result, const std::vector<verification::Cycle>& so_far, const std::string& preset,
                   int cycles_needed);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    struct Row {
        ResultRow shown;
        std::optional<QString> by_hand; ///< the plateau of the last manual hold, until there is a mean
    };
    void take(std::vector<Row> rows);
    [[nodiscard]] QString text(const Row& row, Column column) const;
    [[nodiscard]] QString name(const Row& row) const;
    [[nodiscard]] QString verdict_text(const Row& row) const;
    [[nodiscard]] QString measured(const Row& row) const;
    [[nodiscard]] Tone tone(const Row& row) const;
    [[nodiscard]] bool on_its_way(const Row& row) const;

    std::vector<Column> columns_;
    std::vector<Row> rows_;
    bool several_presets_ = false;
    int cycles_needed_ = 0;
    bool by_hand_ = false; ///< what is measured was held by hand, all of it
};

} // namespace zeroline::session
