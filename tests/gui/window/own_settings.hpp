#pragma once

#include <QSettings>
#include <QTemporaryDir>

namespace zeroline::window {

/// Settings, bench file and records of this program alone, gone when it ends: never those of the person at the machine.
class OwnSettings {
public:
    OwnSettings()
    {
        QSettings::setDefaultFormat(QSettings::IniFormat);
        QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, folder_.path());
        qputenv("XDG_CONFIG_HOME", folder_.path().toUtf8());
        qputenv("XDG_DATA_HOME", folder_.path().toUtf8());
    }

    [[nodiscard]] const QTemporaryDir& folder() const { return folder_; }

private:
    QTemporaryDir folder_;
};

} // namespace zeroline::window
