#pragma once

#include <functional>

class QWidget;

namespace zeroline::window {

/// Space means "go on" while a number among `fields` has the focus too: no number has a blank in it. What was typed is
/// taken first.
void let_space_through(QWidget* fields, std::function<void()> go_on);

} // namespace zeroline::window
