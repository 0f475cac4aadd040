#pragma once

#include "gui/session/run_files.hpp"

#include <QWidget>

class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QLineEdit;
class QSpinBox;
class QTabWidget;

namespace zeroline::window {

class ToleranceForm;

/// A work order to make or to edit: the same checks and the same messages as for a file.
class OrderForm : public QWidget {
    Q_OBJECT
public:
    /// `file` is where it came from; empty: a new one.
    OrderForm(const verification::WorkOrder& order, QString file, QWidget* parent = nullptr);

    /// What the fields say, read back through the checks. Throws trace::InputError with a JSON pointer.
    [[nodiscard]] records::Read<verification::WorkOrder> order() const;
    /// Says what is wrong, or that nothing is. True where it can be saved.
    bool check();
    /// Writes it where it belongs; asks for a name where it has none.
    void save();
    void save_as(const QString& file);

Q_SIGNALS:
    void saved(const QString& file);
    void cancelled();

private:
    QWidget* make_unit();
    QWidget* make_presets();
    QWidget* make_rules();
    QWidget* make_buttons();
    void add_preset(const verification::Preset& preset);
    void show_order();
    [[nodiscard]] verification::WorkOrder from_fields() const;

    verification::WorkOrder base_;
    QString file_;
    QLineEdit *number_, *customer_, *contact_, *asset_, *serial_, *model_, *reference_, *ordered_on_;
    QComboBox *occasion_, *rule_;
    QDoubleSpinBox *hours_, *display_step_;
    QSpinBox *cycles_, *lead_cycles_;
    QTabWidget* presets_;
    ToleranceForm* tolerances_;
    QLabel* trouble_;
};

} // namespace zeroline::window
