#pragma once

#include "gui/window/run_window.hpp"

#include <QMainWindow>

#include <memory>

class QComboBox;
class QLabel;
class QPushButton;
class QStackedWidget;

namespace zeroline::window {

class BenchPlace;
class HelpDialog;
class RegisterPlace;
class RegisterReader;
class ScannerFilter;

/// The window: a line with what holds for everything on top, and one of its two places below: the bench, the register.
class MainWindow : public QMainWindow {
    Q_OBJECT
public:
    explicit MainWindow(const WindowOptions& options = {}, QWidget* parent = nullptr);
    ~MainWindow() override;

    [[nodiscard]] BenchPlace& bench() const noexcept { return *bench_; }
    [[nodiscard]] RegisterPlace& unit_register() const noexcept { return *register_; }

protected:
    void closeEvent(QCloseEvent* event) override;

private:
    QWidget* make_top();
    QWidget* make_places();
    void go_to(QWidget* place);
    void show_what_goes_with_the_page();
    void show_banner();
    QWidget* make_closing();
    QWidget* make_banner();
    QComboBox* make_schemes();
    void dress_up();
    void set_up_scanner();
    void show_help();
    void recall();

    // Goes before the widgets that wait for its answers.
    std::unique_ptr<RegisterReader> reader_;
    BenchPlace* bench_;
    RegisterPlace* register_;
    QStackedWidget* places_;
    QPushButton *to_bench_, *to_register_;
    const QPalette desktop_; ///< as it was before this program laid its own over it
    QComboBox* schemes_;
    QPushButton *help_, *mute_;
    QLabel* banner_;
    QWidget* closing_;
    HelpDialog* help_box_ = nullptr; ///< made when it is first asked for
    bool may_close_ = false;
};

} // namespace zeroline::window
