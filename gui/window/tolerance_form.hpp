#pragma once

#include "gui/session/run_files.hpp"

#include <QWidget>

class QDoubleSpinBox;
class QLineEdit;

namespace zeroline::window {

/// How far values may be off, and where the figures come from. What is left out falls back to the house profile; what
/// has no field here (sides or phases apart, caps) stays as it was in the file.
class ToleranceForm : public QWidget {
    Q_OBJECT
public:
    explicit ToleranceForm(const verification::Tolerances& tolerances, QWidget* parent = nullptr);

    [[nodiscard]] verification::Tolerances tolerances() const;

private:
    /// One line of the form: absolute in its unit, relative in percent (null: it has none).
    struct Line {
        std::optional<verification::Tolerance> verification::Tolerances::*member;
        QDoubleSpinBox *absolute, *relative;
    };
    void add(const QString& label, const char* name,
             std::optional<verification::Tolerance> verification::Tolerances::*member, const QString& unit,
             bool relative);

    verification::Tolerances base_;
    QLineEdit *basis_, *approved_by_;
    std::vector<Line> lines_;
    QDoubleSpinBox *within_s_, *peak_;
};

} // namespace zeroline::window
