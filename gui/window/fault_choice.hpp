#pragma once

#include <QWidget>

#include <string>
#include <vector>

class QComboBox;
class QLineEdit;

namespace zeroline::window {

/// Which fault the virtual bench shows, and how large it is.
class FaultChoice : public QWidget {
    Q_OBJECT
public:
    explicit FaultChoice(QWidget* parent = nullptr);

    /// As `--fault` takes them: none or one.
    [[nodiscard]] std::vector<std::string> faults() const;

private:
    QComboBox* fault_;
    QLineEdit* size_;
};

} // namespace zeroline::window
