#include "gui/window/plain_text.hpp"

#include <QApplication>
#include <QEvent>
#include <QLabel>

namespace zeroline::window {

namespace {

/// Every label is polished or shown before it is first seen; those of message boxes, forms and tool tips are labels
/// too.
class PlainLabels : public QObject {
public:
    using QObject::QObject;

    bool eventFilter(QObject* watched, QEvent* event) override
    {
        if (event->type() == QEvent::Polish || event->type() == QEvent::Show) {
            if (auto* label = qobject_cast<QLabel*>(watched)) {
                label->setTextFormat(Qt::PlainText);
            }
        }
        return false;
    }
};

} // namespace

void show_only_plain_text(QApplication& application)
{
    const auto name = QStringLiteral("plainLabels");
    if (application.findChild<QObject*>(name, Qt::FindDirectChildrenOnly) == nullptr) {
        auto* labels = new PlainLabels(&application);
        labels->setObjectName(name);
        application.installEventFilter(labels);
    }
}

} // namespace zeroline::window
