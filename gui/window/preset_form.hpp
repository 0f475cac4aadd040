#pragma once

#include "gui/session/run_files.hpp"

#include <QWidget>

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QLineEdit;
class QSpinBox;

namespace zeroline::window {

/// One prescribed preset. Magnitudes are typed, the sign stands in front; what has no field stays as it was.
class PresetForm : public QWidget {
    Q_OBJECT
public:
    explicit PresetForm(const verification::Preset& preset, QWidget* parent = nullptr);

    [[nodiscard]] verification::Preset preset() const;

private:
    void add_phases();
    void add_ways();
    void add_oscillation();
    void add_series();
    void show_preset(const verification::Preset& preset);

    verification::Preset base_;
    QLineEdit* name_;
    QDoubleSpinBox *insufflation_, *exsufflation_, *insufflation_s_, *exsufflation_s_, *pause_s_, *pause_level_;
    QComboBox *flow_, *trigger_, *during_;
    QCheckBox *oscillates_, *has_series_;
    QDoubleSpinBox *frequency_, *amplitude_, *rest_s_;
    QSpinBox *breaths_, *count_;
};

} // namespace zeroline::window
