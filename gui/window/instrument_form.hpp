#pragma once

#include "gui/session/run_files.hpp"

#include <QWidget>

#include <functional>

class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QLineEdit;

namespace zeroline::window {

class LineForm;
class ListenPanel;

/// An instrument to describe: the same checks and messages as for its file, and listening beside it.
class InstrumentForm : public QWidget {
    Q_OBJECT
public:
    /// `file`: where it came from; empty: a new one. `port`: what the start page has chosen.
    InstrumentForm(const trace::Instrument& instrument, QString file, std::function<std::string()> port,
                   QWidget* parent = nullptr);

    /// What the fields say, read back through the checks. Throws trace::InputError with a JSON pointer.
    [[nodiscard]] records::Read<trace::Instrument> instrument() const;
    bool check();
    void save();
    void save_as(const QString& file);

Q_SIGNALS:
    void saved(const QString& file);
    void cancelled();

private:
    QWidget* make_identity();
    QWidget* make_calibration();
    QWidget* make_buttons();
    void show_instrument();
    [[nodiscard]] trace::Instrument from_fields() const;

    trace::Instrument base_;
    QString file_;
    QLineEdit *name_, *serial_, *certificate_, *on_, *due_, *points_;
    QDoubleSpinBox *low_, *high_, *resolution_, *rate_, *ppm_, *uncertainty_, *coverage_, *calibrated_low_,
        *calibrated_high_, *calibrated_at_, *coefficient_, *warm_up_;
    QComboBox* unit_;
    LineForm* line_;
    ListenPanel* listen_;
    QLabel* trouble_;
};

/// "-60: -60.05; 0: 0.01": reference and indicated. Throws trace::InputError.
[[nodiscard]] std::vector<trace::CalibrationPoint> points_typed(const QString& text);
[[nodiscard]] QString points_text(const std::vector<trace::CalibrationPoint>& points);

} // namespace zeroline::window
