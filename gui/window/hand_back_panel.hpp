#pragma once

#include "gui/session/bench_session.hpp"

#include <QWidget>

#include <functional>

class QPushButton;
class QScrollBar;

namespace zeroline::window {

class DisplayedFields;
class SettingsFields;

/// The hand-back list: what is set back and read back, what the unit displayed, how it is left.
class HandBackPanel : public QWidget {
    Q_OBJECT
public:
    /// `moved`: more or less of it is in sight.
    HandBackPanel(session::BenchSession& session, std::function<void()> moved, QWidget* parent = nullptr);

    /// The list is done; `done`: every item of it was done and read back.
    void finish(bool done);
    /// Every item and field has come into sight.
    [[nodiscard]] bool seen_to_the_end() const;
    /// On to what is below; finish(true) once all was seen.
    void go_on();
    void say_as_prescribed(); ///< the settings that the unit is left with

private:
    QWidget* make_result();
    QWidget* make_list();
    QWidget* make_readings();
    QWidget* make_buttons();
    void look_again();

    session::BenchSession& session_;
    DisplayedFields* displayed_;
    SettingsFields* left_;
    std::function<void()> moved_;
    QPushButton* all_ = nullptr;
    QScrollBar* bar_ = nullptr;
};

} // namespace zeroline::window
