#pragma once

#include "gui/session/bench_session.hpp"

#include <QWidget>

namespace zeroline::window {

class DisplayedFields;
class SettingsFields;

/// The hand-back list: what is set back and read back, what the unit displayed, how it is left.
class HandBackPanel : public QWidget {
    Q_OBJECT
public:
    explicit HandBackPanel(session::BenchSession& session, QWidget* parent = nullptr);

    /// The list is done; `restored`: every item was read back.
    void finish(bool restored);

private:
    QWidget* make_list();
    QWidget* make_readings();
    QWidget* make_buttons();

    session::BenchSession& session_;
    DisplayedFields* displayed_;
    SettingsFields* left_;
};

} // namespace zeroline::window
