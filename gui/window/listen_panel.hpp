#pragma once

#include "gui/session/run_files.hpp"
#include "gui/session/settings_search.hpp"
#include "gui/session/trace_history.hpp"

#include <QTimer>
#include <QWidget>

#include <functional>
#include <memory>

class QLabel;
class QListWidget;
class QPushButton;

namespace zeroline::charts {
class TraceChart;
}

namespace zeroline::window {

/// Listening to an instrument while it is described: what comes, how fast, how quiet, what is lost; and the search for
/// settings where nothing fits. Nothing is saved.
class ListenPanel : public QWidget {
    Q_OBJECT
public:
    /// `instrument` gives what is to be listened with; it may throw trace::InputError, which is then shown. `port` as
    /// of the start page.
    ListenPanel(std::function<trace::Instrument()> instrument, std::function<std::string()> port,
                QWidget* parent = nullptr);
    ~ListenPanel() override;

    void stop();

Q_SIGNALS:
    /// A set-up that fits was chosen.
    void found(const zeroline::trace::PortSettings& port, const zeroline::trace::Language& language);

private:
    void toggle_listening();
    void start_listening();
    void pull();
    void toggle_search();
    void show_fits();
    void show_buttons();
    [[nodiscard]] QString line_text() const;

    std::function<trace::Instrument()> instrument_;
    std::function<std::string()> port_;
    std::unique_ptr<session::LiveFeed> feed_;
    session::TraceHistory history_;
    session::SettingsSearch search_;
    QTimer timer_;
    charts::TraceChart* chart_;
    QLabel* says_;
    QListWidget* fits_;
    QPushButton *listen_, *find_, *take_;
};

} // namespace zeroline::window
