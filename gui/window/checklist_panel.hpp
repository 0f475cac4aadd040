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

/// What was looked at beside the run, a row an item, and the air in the room. What nobody touched is not in the record.
class ChecklistPanel : public QWidget {
    Q_OBJECT
public:
    /// `prefix` goes in front of the objects' names.
    ChecklistPanel(verification::Occasion occasion, const QString& prefix, QWidget* parent = nullptr);

    /// One key for all that stands there: seen, and in order. Each can still be denied; what was answered stays.
    void say_all_in_order();

    void put(const std::vector<verification::ChecklistItem>& checklist, const verification::Environment& air);
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
    QWidget* make_items(verification::Occasion occasion);
    void add_row(QGridLayout* grid, const std::string& item);
    [[nodiscard]] QLineEdit* line(const QString& name, const QString& spoken);
    [[nodiscard]] static std::string name_of(const Row& row);

    QString prefix_;
    QDoubleSpinBox *temperature_, *pressure_, *humidity_;
    std::vector<Row> rows_;
};

} // namespace zeroline::window
