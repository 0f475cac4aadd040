#pragma once

#include "gui/session/bench_session.hpp"

#include <QWidget>

class QPushButton;
class QScrollBar;

namespace zeroline::window {

class DisplayedFields;
class SettingsFields;

/// The hand-back list: what is set back and read back, what the unit displayed, how it is left.
class HandBackPanel : public QWidget {
    Q_OBJECT
public:
    explicit HandBackPanel(session::BenchSession& session, QWidget* parent = nullptr);

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
    void show_more();

    session::BenchSession& session_;
    DisplayedFields* displayed_;
    SettingsFields* left_;
    QPushButton* more_ = nullptr;
    QScrollBar* bar_ = nullptr;
};

} // namespace zeroline::window
