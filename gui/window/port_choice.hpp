#pragma once

#include "gui/session/ports_model.hpp"

#include <QTimer>
#include <QWidget>

#include <string>

class QComboBox;
class QLabel;

namespace zeroline::window {

/// The port of a run: chosen from what is plugged in, the one used last (marked where it is missing) and the virtual
/// bench, or typed. Says why a run cannot begin with it. While it is shown, it follows what is plugged and pulled.
class PortChoice : public QWidget {
    Q_OBJECT
public:
    explicit PortChoice(QWidget* parent = nullptr);

    /// A path, also of a port that is not there, or PortsModel::kVirtualBench; empty: none is chosen.
    void choose(const std::string& path);
    [[nodiscard]] std::string port() const;
    /// Empty: it does not wait for a port.
    [[nodiscard]] QString why_it_waits() const;

Q_SIGNALS:
    void changed();

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    void refresh();
    void say();

    session::PortsModel model_;
    QComboBox* ports_;
    QLabel* says_;
    QTimer look_;
};

} // namespace zeroline::window
