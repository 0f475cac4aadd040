#pragma once

class QApplication;

namespace zeroline::window {

/// From now on no label, no message box and no tool tip takes its text for rich text: what a file says is shown as it
/// is written, never as markup. To be called once before the first window is shown; once more does nothing.
void show_only_plain_text(QApplication& application);

} // namespace zeroline::window
