#pragma once

#include "gui/window/run_window.hpp"

#include <QMainWindow>

class QMessageBox;
class QPushButton;

namespace zeroline::window {

class BenchPlace;
class ScannerFilter;

/// The window: a rail with the places on the left, the place that is shown beside it.
class MainWindow : public QMainWindow {
    Q_OBJECT
public:
    explicit MainWindow(const WindowOptions& options = {}, QWidget* parent = nullptr);
    ~MainWindow() override;

    [[nodiscard]] BenchPlace& bench() const noexcept { return *bench_; }

protected:
    void closeEvent(QCloseEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    QWidget* make_rail();
    QWidget* make_closing();
    QWidget* make_banner();
    void set_up_scanner();
    void show_help();
    QMessageBox* make_help();
    void recall();

    BenchPlace* bench_;
    QPushButton *to_bench_, *help_, *mute_;
    QWidget* closing_;
    QMessageBox* help_box_ = nullptr;
    bool may_close_ = false;
};

} // namespace zeroline::window
