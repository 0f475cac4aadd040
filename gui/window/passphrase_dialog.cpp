#include "gui/window/passphrase_dialog.hpp"

#include <QCoreApplication>
#include <QInputDialog>

namespace zeroline::window {

records::AskPassphrase ask_above(QWidget* parent)
{
    return [parent](const std::filesystem::path& key_file) -> std::optional<std::string> {
        bool taken = false;
        const auto file = QString::fromStdString(key_file.string());
        const auto typed = QInputDialog::getText(
            parent, QCoreApplication::translate("PassphraseDialog", "Key of this bench"),
            QCoreApplication::translate("PassphraseDialog", "Passphrase of the key in %1:").arg(file),
            QLineEdit::Password, {}, &taken);
        return taken ? std::optional(typed.toStdString()) : std::nullopt;
    };
}

} // namespace zeroline::window
