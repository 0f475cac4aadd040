#pragma once

#include <QWidget>

#include <string>
#include <vector>

class QComboBox;
class QLineEdit;

namespace zeroline::session {
struct RunSetUp;
}

namespace zeroline::window {

/// Which fault the virtual bench shows, and how large it is.
class FaultChoice : public QWidget {
    Q_OBJECT
public:
    explicit FaultChoice(QWidget* parent = nullptr);

    /// Gives the run the virtual bench, or makes a practice of it. Throws trace::InputError.
    void add_bench(session::RunSetUp& made) const;

private:
    /// As `--fault` takes them: none or one.
    [[nodiscard]] std::vector<std::string> faults() const;

    QComboBox* fault_;
    QLineEdit* size_;
};

} // namespace zeroline::window
