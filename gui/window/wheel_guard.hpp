#pragma once

#include <QObject>

namespace zeroline::window {

/// The mouse wheel turns pages and never changes a value or a choice: boxes of choices and of numbers hand it on to
/// what they stand in, with the focus or without. A list that is unfolded still scrolls.
class WheelGuard : public QObject {
    Q_OBJECT
public:
    using QObject::QObject;
    bool eventFilter(QObject* watched, QEvent* event) override;
};

} // namespace zeroline::window
