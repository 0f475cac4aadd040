#include "gui/window/run_window.hpp"

#include "gui/window/live_window.hpp"

#include <QApplication>

namespace zeroline::window {

int run_window(int argc, char** argv)
{
    const QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("zeroline"));
    QCoreApplication::setApplicationName(QStringLiteral("zeroline"));
    LiveWindow window;
    window.show();
    return QApplication::exec();
}

} // namespace zeroline::window
