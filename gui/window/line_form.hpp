#pragma once

#include "gui/session/run_files.hpp"

#include <QWidget>

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QLineEdit;
class QSpinBox;
class QStackedWidget;

namespace zeroline::window {

[[nodiscard]] QComboBox* unit_field(const char* name, const QString& spoken);
[[nodiscard]] trace::PressureUnit unit_of(const QComboBox* field);
void put(QComboBox* field, trace::PressureUnit unit);

/// The line of an instrument: settings of the port, and how readings are written on it.
class LineForm : public QWidget {
    Q_OBJECT
public:
    LineForm(const trace::PortSettings& port, const trace::Language& language, QWidget* parent = nullptr);

    void show_line(const trace::PortSettings& port, const trace::Language& language);
    [[nodiscard]] trace::PortSettings port() const;
    [[nodiscard]] trace::Language language() const;

private:
    void add_port();
    void add_language();
    QWidget* make_lines();
    QWidget* make_query();
    QWidget* make_registers();
    void show_details(int index);
    void take_fields(trace::Language& language) const;

    trace::PortSettings base_port_;
    trace::Language base_language_;
    QSpinBox *baud_, *data_bits_, *stop_bits_, *field_, *count_field_, *time_field_, *address_, *function_, *register_;
    QComboBox *parity_, *kind_, *unit_, *decimal_, *type_;
    QCheckBox *dtr_, *rts_, *low_word_first_;
    QDoubleSpinBox *settle_s_, *scale_, *offset_, *timeout_s_;
    QLineEdit *start_, *stop_, *separator_, *query_, *line_query_;
    QStackedWidget* details_;
};

/// Control characters of a text as a person types them: "\r\n" stands for carriage return and line feed.
[[nodiscard]] QString escaped(const std::string& text);
[[nodiscard]] std::string unescaped(const QString& typed);

} // namespace zeroline::window
