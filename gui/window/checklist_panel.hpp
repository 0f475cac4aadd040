#pragma once

#include "gui/session/checklist.hpp"

#include <QWidget>

#include <string>
#include <vector>

class QComboBox;
class QDoubleSpinBox;
class QGridLayout;
class QLineEdit;

namespace zeroline::window {

/// What was looked at beside the run, a row an item, the air in the room, and how long the instrument has been on. What
/// nobody touched is not in the record.
class ChecklistPanel : public QWidget {
    Q_OBJECT
public:
    /// `items`: what is to be looked at; one row more is left for something else. `prefix` goes in front of the
    /// objects' names.
    ChecklistPanel(const std::vector<std::string>& items, const QString& prefix, QWidget* parent = nullptr);

    /// One key for all that stands there: seen, and in order. Each can still be denied; what was answered stays.
    void say_all_in_order();

    void put(const std::vector<verification::ChecklistItem>& checklist, const verification::Environment& air);
    /// What was answered elsewhere, of the items that stand here.
    void put_answers(const std::vector<verification::ChecklistItem>& answers);
    [[nodiscard]] std::vector<verification::ChecklistItem> checklist() const;
    [[nodiscard]] verification::Environment environment() const;

Q_SIGNALS:
    void edited();

private:
    struct Row {
        std::string item;           ///< empty: what `other` says
        QLineEdit* other = nullptr; ///< an item that is on no list
        QComboBox* outcome = nullptr;
        QLineEdit* remark = nullptr;
    };
    QWidget* make_air();
    QWidget* make_items(const std::vector<std::string>& items);
    void add_row(QGridLayout* grid, const std::string& item);
    [[nodiscard]] QLineEdit* line(const QString& name, const QString& spoken);
    [[nodiscard]] static std::string name_of(const Row& row);
    static void put_answer(const Row& row, const verification::ChecklistItem& answer);

    QString prefix_;
    QDoubleSpinBox *temperature_, *pressure_, *humidity_, *instrument_on_;
    std::vector<Row> rows_;
};

} // namespace zeroline::window
