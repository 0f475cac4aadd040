#pragma once

#include <QFrame>

#include <filesystem>

class QLabel;

namespace zeroline::window {

/// The five lines of the copy for home, to be copied by hand where there is no printer.
class HomeLines : public QFrame {
    Q_OBJECT
public:
    explicit HomeLines(QWidget* parent = nullptr);

    /// Of a saved record; hidden where there is none, or paper refuses it.
    void show_record(const std::filesystem::path& folder);

private:
    QLabel* lines_;
};

} // namespace zeroline::window
