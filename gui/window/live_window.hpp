#pragma once

#include "gui/window/column_thinning.hpp"

#include <QWidget>

#include <memory>

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QTimer;

namespace zeroline::session {
class LiveFeed;
}

namespace zeroline::window {

class LiveChart;

/// The live trace of a port and an instrument file that a person chooses.
///
/// Trouble is told in the line at the bottom, in words, never in a box that covers the trace.
class LiveWindow : public QWidget {
    Q_OBJECT
public:
    explicit LiveWindow(QWidget* parent = nullptr);
    ~LiveWindow() override;

    [[nodiscard]] bool is_running() const { return feed_ != nullptr; }

public Q_SLOTS:
    void start();
    void stop();

protected:
    void closeEvent(QCloseEvent* event) override;

private:
    QWidget* make_choices();
    QWidget* make_instrument_row();
    QWidget* make_buttons();
    QWidget* make_figures();
    void connect_actions();
    void recall_choices();
    void keep_choices() const;
    void list_ports();
    void choose_instrument();
    void pull();
    void show_figures();
    void show_line();
    void show_running(bool running);
    [[nodiscard]] QString chosen_port() const;
    [[nodiscard]] QString pressure_text(double pressure_cmH2O) const;

    std::unique_ptr<session::LiveFeed> feed_; ///< none while nothing runs
    TraceTail tail_;
    QComboBox* ports_;
    QLineEdit* instrument_;
    QPushButton* browse_;
    QPushButton* refresh_;
    QPushButton* start_;
    QPushButton* stop_;
    LiveChart* chart_;
    QLabel* now_;
    QLabel* range_;
    QLabel* line_;
    QLabel* sentence_;
    QTimer* timer_;
};

} // namespace zeroline::window
