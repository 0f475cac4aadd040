#pragma once

#include <QCoreApplication>
#include <QString>

#include <string>

namespace zeroline::session {

/// The words of a run: English, or another language where the program has a translator (a terminal has none).
struct Run {
    Q_DECLARE_TR_FUNCTIONS(Run)
};

[[nodiscard]] inline std::string said(const QString& text) { return text.toStdString(); }
[[nodiscard]] inline QString quoted(const std::string& name) { return QString::fromStdString(name); }

} // namespace zeroline::session
