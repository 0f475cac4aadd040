#pragma once

#include <QString>

#include <optional>
#include <string>

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QFormLayout;
class QLineEdit;
class QSpinBox;
class QWidget;

namespace zeroline::window {

[[nodiscard]] QLineEdit* text_field(const char* name, const QString& spoken);
[[nodiscard]] QComboBox* choice_field(const char* name, const QString& spoken);
[[nodiscard]] QCheckBox* check_field(const char* name, const QString& text);
[[nodiscard]] QSpinBox* count_field(const char* name, const QString& spoken, int low, int high);
/// A number that may be left out: one step below `low` reads as a dash and stands for none.
[[nodiscard]] QDoubleSpinBox* optional_field(const char* name, const QString& spoken, double low, double high,
                                             int decimals, const QString& unit = {});

[[nodiscard]] std::optional<double> value_of(const QDoubleSpinBox* field);
void put(QDoubleSpinBox* field, const std::optional<double>& value);
[[nodiscard]] std::string value_of(const QLineEdit* field);
void put(QLineEdit* field, const std::string& text);

/// A form without margins whose rows wrap where they are long.
[[nodiscard]] QFormLayout* form_in(QWidget* widget);
/// Labels stand in the middle of their fields, and the fields of all forms of a page begin at one line; fields whose
/// parts go on below get the height for it.
void align_labels(QWidget* page);
/// A scrolled page for forms that are longer than the window.
[[nodiscard]] QWidget* scrolled(QWidget* inner, const char* name, const QString& spoken);

} // namespace zeroline::window
