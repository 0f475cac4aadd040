#pragma once

#include <QDialog>

namespace zeroline::window {

/// The keys, and the guide as it is written in docs/guide.md. Never modal: a run goes on behind it.
class HelpDialog : public QDialog {
    Q_OBJECT
public:
    explicit HelpDialog(QWidget* parent);
};

} // namespace zeroline::window
