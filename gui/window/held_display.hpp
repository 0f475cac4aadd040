#pragma once

#include "gui/session/bench_session.hpp"

#include <QFrame>

#include <functional>
#include <string>

namespace zeroline::window {

class DisplayedFields;

/// What the unit displays is read while a phase is held: its fields stand beside the trace then, and only then. Of a
/// simulated unit the program reads the display itself.
class HeldDisplay : public QFrame {
    Q_OBJECT
public:
    /// `go_on`: what Space means in a number.
    HeldDisplay(session::BenchSession& session, std::function<void()> go_on, QWidget* parent = nullptr);

    void show_step(const session::RunView& view);

private:
    void note();

    session::BenchSession& session_;
    std::function<void()> go_on_;
    DisplayedFields* fields_ = nullptr;
    std::string preset_; ///< that the fields are of
};

} // namespace zeroline::window
