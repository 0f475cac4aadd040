#include "gui/window/run_window.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/window/language.hpp"
#include "gui/window/main_window.hpp"

#include <QApplication>

namespace zeroline::window {

namespace {

/// Qt ends the whole program where there is none.
void refuse_without_display()
{
    const bool there = qEnvironmentVariableIsSet("DISPLAY") || qEnvironmentVariableIsSet("WAYLAND_DISPLAY") ||
                       qEnvironmentVariableIsSet("QT_QPA_PLATFORM");
    if (!there) {
        throw trace::InputError("zeroline", "no display for the window",
                                "a desktop, or one of the commands that 'zeroline --help' lists");
    }
}

} // namespace

int run_window(int argc, char** argv, const WindowOptions& options)
{
    refuse_without_display();
    QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("zeroline"));
    QCoreApplication::setApplicationName(QStringLiteral("zeroline"));
    install_language(application, QString::fromStdString(options.language));
    MainWindow window(options);
    window.show();
    return QApplication::exec();
}

} // namespace zeroline::window
