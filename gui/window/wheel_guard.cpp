#include "gui/window/wheel_guard.hpp"

#include <QAbstractSlider>
#include <QAbstractSpinBox>
#include <QComboBox>
#include <QEvent>
#include <QScrollBar>
#include <QTabBar>

namespace zeroline::window {

namespace {

bool holds_a_value(const QObject* widget)
{
    const bool slides =
        qobject_cast<const QAbstractSlider*>(widget) != nullptr && qobject_cast<const QScrollBar*>(widget) == nullptr;
    return slides || qobject_cast<const QComboBox*>(widget) != nullptr ||
           qobject_cast<const QAbstractSpinBox*>(widget) != nullptr || qobject_cast<const QTabBar*>(widget) != nullptr;
}

} // namespace

bool WheelGuard::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() != QEvent::Wheel) {
        return false;
    }
    if (!holds_a_value(watched)) {
        return false;
    }
    event->ignore(); // the application then offers it to the parent
    return true;
}

} // namespace zeroline::window
