#pragma once

#include "gui/session/bench_session.hpp"

#include <QWidget>

#include <optional>

class QLabel;
class QLineEdit;
class QPushButton;

namespace zeroline::window {

/// What a step of a procedure asks a person for: whether an item is in order, or a value that was measured with
/// something else. The answer goes to the run.
class QuestionPanel : public QWidget {
    Q_OBJECT
public:
    explicit QuestionPanel(session::BenchSession& session, QWidget* parent = nullptr);

    /// Puts the question of the step that the run is at; nothing of the one before stands there.
    void ask();
    void go_on();          ///< in order; or the value as it is typed
    void not_in_order();   ///< with a remark: it is asked for where none is typed
    void not_applicable(); ///< with the reason: it is asked for where none is typed

private:
    using Outcome = verification::ChecklistItem::Outcome;
    [[nodiscard]] const session::RunStep& step() const;
    [[nodiscard]] bool asks_value() const;
    void say(Outcome outcome);
    void take_value();
    void take_remark();

    session::BenchSession& session_;
    QLabel *item_, *limits_, *told_, *unit_;
    QWidget* value_row_;
    QLineEdit *value_, *remark_;
    QPushButton *go_on_, *not_in_order_, *not_applicable_;
    std::optional<Outcome> wanted_; ///< waits for its remark
    std::optional<double> outside_; ///< a value outside its limits, said once
};

} // namespace zeroline::window
