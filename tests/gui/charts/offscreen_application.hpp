#pragma once

#include <QApplication>
#include <QLocale>

namespace zeroline::charts {

/// The application that every chart needs, without a display. Made once; numbers stand as in C.
inline QApplication& application()
{
    static int argc = 1;
    static char name[] = "gui_charts_test";
    static char* argv[] = {name, nullptr};
    qputenv("QT_QPA_PLATFORM", "offscreen");
    static auto* const the_one = new QApplication(argc, argv);
    QLocale::setDefault(QLocale::c());
    return *the_one;
}

} // namespace zeroline::charts
