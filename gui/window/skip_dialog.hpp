#pragma once

#include <QDialog>

class QLabel;
class QLineEdit;
class QPushButton;

namespace zeroline::window {

/// Asks why a step is left out. Not modal: the run goes on behind it, and moving on closes it.
class SkipDialog : public QDialog {
    Q_OBJECT
public:
    explicit SkipDialog(QWidget* parent);

    void ask(const QString& place, const QString& sentence); ///< of the step

Q_SIGNALS:
    void skips(const QString& reason); ///< never empty

private:
    void say_it();

    QLabel *what_, *step_;
    QLineEdit* reason_;
    QPushButton* skip_;
};

} // namespace zeroline::window
