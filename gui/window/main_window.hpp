#pragma once

#include "gui/window/run_window.hpp"

#include <QMainWindow>

class QComboBox;
class QPushButton;

namespace zeroline::window {

class BenchPlace;
class HelpDialog;
class ScannerFilter;

/// The window: a line with what holds for everything on top, the bench below it.
class MainWindow : public QMainWindow {
    Q_OBJECT
public:
    explicit MainWindow(const WindowOptions& options = {}, QWidget* parent = nullptr);
    ~MainWindow() override;

    [[nodiscard]] BenchPlace& bench() const noexcept { return *bench_; }

protected:
    void closeEvent(QCloseEvent* event) override;

private:
    QWidget* make_top();
    QWidget* make_closing();
    QWidget* make_banner();
    QComboBox* make_schemes();
    void dress_up();
    void set_up_scanner();
    void show_help();
    void recall();

    BenchPlace* bench_;
    const QPalette desktop_; ///< as it was before this program laid its own over it
    QComboBox* schemes_;
    QPushButton *help_, *mute_;
    QWidget* closing_;
    HelpDialog* help_box_ = nullptr; ///< made when it is first asked for
    bool may_close_ = false;
};

} // namespace zeroline::window
