#include "gui/window/space_key.hpp"

#include <QAbstractSpinBox>
#include <QKeyEvent>

#include <utility>

namespace zeroline::window {

namespace {

class SpaceKey : public QObject {
public:
    SpaceKey(QWidget* fields, std::function<void()> go_on) : QObject(fields), go_on_(std::move(go_on))
    {
        for (auto* box : fields->findChildren<QAbstractSpinBox*>()) {
            box->installEventFilter(this);
        }
    }

protected:
    bool eventFilter(QObject* watched, QEvent* event) override
    {
        if (event->type() != QEvent::KeyPress || static_cast<QKeyEvent*>(event)->key() != Qt::Key_Space) {
            return false;
        }
        static_cast<QAbstractSpinBox*>(watched)->interpretText();
        go_on_();
        return true;
    }

private:
    std::function<void()> go_on_;
};

} // namespace

void let_space_through(QWidget* fields, std::function<void()> go_on) { new SpaceKey(fields, std::move(go_on)); }

} // namespace zeroline::window
