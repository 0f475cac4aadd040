#pragma once

#include <QString>

class QCoreApplication;

namespace zeroline::window {

/// Lets everything that is created from now on speak that language: "en", "de", "de-AT"; empty: the system's. Numbers
/// follow it too, unless the system's own locale is of that language. A language that is not there: English.
void install_language(QCoreApplication& application, const QString& language);

} // namespace zeroline::window
