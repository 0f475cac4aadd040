#pragma once

#include "gui/window/register_rows.hpp"

#include <QWidget>

#include <utility>
#include <vector>

class QBoxLayout;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTableView;
class QTimer;

namespace zeroline::window {

class TrendCard;
class UnitCard;

/// The register: what is due first, then all units, runs that nobody has signed, and instruments; searched as somebody
/// types. Beside the list stands what is chosen in it: one unit, the records of an instrument, a run to be signed.
class RegisterPlace : public QWidget {
    Q_OBJECT
public:
    explicit RegisterPlace(RegisterReader& reader, QWidget* parent = nullptr);

    /// Where runs may lie that nobody has signed, besides the folders of the register.
    void look_for_runs_in(const QString& folder) { runs_folder_ = folder; }
    /// Asks again: something may have come in.
    void refresh();
    /// A scanner read it: the unit is looked for among all.
    void take_asset(const QString& asset);
    /// All of the list that is shown, as CSV. What is wrong is said.
    void export_to(const QString& file);

Q_SIGNALS:
    void begins(const QString& asset);
    void wantsRecord(const QString& folder);

protected:
    void showEvent(QShowEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    enum class List { due, units, not_signed, instruments };
    QWidget* make_choice();
    QWidget* make_list();
    QWidget* make_beside();
    QWidget* make_records_of_instrument();
    QWidget* make_run();
    void choose(List list);
    void row_chosen();
    void show_beside();
    void show_instrument(const unit_register::Rows& instrument);
    void show_suspicion(const unit_register::Rows& instrument);
    void ask_for_checks(const unit_register::Rows& instrument);
    struct Checks {
        unit_register::Rows calibrations, gauge;
    };
    void show_checks(const Checks& checks);
    void page_came();
    void ask_for_file();

    RegisterReader& reader_;
    QString runs_folder_;
    RegisterRows rows_, touched_;
    std::vector<std::pair<List, QPushButton*>> lists_; ///< no group: Tab reaches each of them
    List list_ = List::due;
    QLineEdit* search_;
    QComboBox* ahead_;
    QTimer* typing_;
    QLabel *says_, *run_says_, *instrument_says_, *suspicion_;
    QTableView *table_, *touched_table_;
    QPushButton* export_;
    QStackedWidget* beside_;
    QWidget *nothing_, *instrument_, *run_;
    UnitCard* unit_;
    TrendCard* instrument_trend_;
    QBoxLayout* columns_;
};

} // namespace zeroline::window
