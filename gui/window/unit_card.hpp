#pragma once

#include "gui/session/cycle_overlay.hpp"
#include "gui/window/register_rows.hpp"

#include <QWidget>

#include <vector>

class QComboBox;
class QLabel;
class QPushButton;
class QTableView;

namespace zeroline::charts {
class OverlayChart;
} // namespace zeroline::charts

namespace zeroline::window {

class TrendCard;

/// One unit of the register: its visits, how each quantity went over them, and the cycles of one visit with the median
/// of the visit before.
class UnitCard : public QWidget {
    Q_OBJECT
public:
    explicit UnitCard(RegisterReader& reader, QWidget* parent = nullptr);

    void show_unit(const std::string& asset);
    [[nodiscard]] const std::string& asset() const noexcept { return asset_; }

Q_SIGNALS:
    void begins(const QString& asset);       ///< a run with this unit
    void wantsRecord(const QString& folder); ///< look at one of its records

private:
    QWidget* make_head();
    QWidget* make_trend();
    QWidget* make_cycles();
    void forget();
    void show_visits(const unit_register::Rows& visits);
    void show_figures(const unit_register::Rows& figures);
    void visit_chosen();
    void show_presets(const std::vector<std::string>& presets);
    void ask_for_cycles();
    void say_origin();
    [[nodiscard]] std::filesystem::path folder_of(int visit) const; ///< empty: none there
    [[nodiscard]] int visit() const;
    [[nodiscard]] std::function<bool()> still() const; ///< the same unit is shown

    RegisterReader& reader_;
    std::string asset_;
    std::shared_ptr<std::atomic<int>> shown_; ///< counts units and visits
    RegisterRows visits_;
    QLabel *head_, *says_, *origin_, *cycles_say_;
    QPushButton *begin_, *open_;
    QTableView* table_;
    QComboBox* preset_;
    TrendCard* trend_;
    charts::OverlayChart* cycles_;
};

} // namespace zeroline::window
