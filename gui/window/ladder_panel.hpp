#pragma once

#include "gui/session/result_view.hpp"

#include <QWidget>

class QVBoxLayout;

namespace zeroline::window {

/// The ladder of a result: for each measurand error against setting as a chart, the straight line in words, and a line
/// a setting; then leak test and strength, a sentence each. Hidden where none of it was done.
class LadderPanel : public QWidget {
    Q_OBJECT
public:
    explicit LadderPanel(QWidget* parent = nullptr);
    void show_ladder(const session::ResultView& result);

private:
    QVBoxLayout* parts_;
};

} // namespace zeroline::window
