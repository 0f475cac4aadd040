#include "gui/window/help_dialog.hpp"

#include "gui/window/page_parts.hpp"

#include <QDialogButtonBox>
#include <QFile>
#include <QLabel>
#include <QPlainTextEdit>
#include <QVBoxLayout>

namespace zeroline::window {

namespace {

constexpr QSize kSize(820, 620);

QString guide_text()
{
    QFile file(QStringLiteral(":/guide/guide.md"));
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

} // namespace

HelpDialog::HelpDialog(QWidget* parent) : QDialog(parent)
{
    setWindowTitle(tr("Help"));
    named(this, "helpBox", tr("Help"));
    auto* keys = new QLabel(
        tr("Choose the work order, the instrument and its port, then begin. The run moves on by what the pressure "
           "does.\n\n"
           "Space: done, go on, where that is allowed\nEscape: give the unit back now, at every step\n"
           "S: leave a step out, with a reason\nC: checklist and air in the room\n"
           "Plus, minus, arrows, Home, End: zoom and move the trace\nU: uncertainty beside the result\n"
           "Ctrl+Enter: begin the run\n\nThe whole guide, in English:"));
    keys->setWordWrap(true);
    auto* guide = named(new QPlainTextEdit(guide_text()), "guide", tr("The guide"));
    guide->setReadOnly(true);
    guide->setTabChangesFocus(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->addWidget(keys);
    column->addWidget(guide, 1);
    column->addWidget(buttons);
    resize(kSize);
}

} // namespace zeroline::window
