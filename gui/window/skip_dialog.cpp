#include "gui/window/skip_dialog.hpp"

#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"

#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

namespace zeroline::window {

SkipDialog::SkipDialog(QWidget* parent) : QDialog(parent)
{
    named(this, "skipDialog", tr("leave this step out"));
    setModal(false);
    setMinimumWidth(520);
    what_ = heading({});
    what_->setObjectName(QStringLiteral("skipWhat"));
    step_ = text_label("skipStep", tr("step"));
    reason_ = text_field("skipReason", tr("reason"));
    reason_->setPlaceholderText(tr("why it is left out"));
    skip_ = primary(button("skipNow", tr("Leave it out")));
    auto* stay = button("skipNot", tr("Do it after all  [Esc]"));
    auto* buttons = row_of({skip_, stay});
    put_gap(buttons, 1);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(what_);
    layout->addWidget(step_);
    layout->addWidget(
        text_label("skipMeans", tr("what it means"),
                   tr("A reason is needed: the record names what was left out, and why. What was not seen "
                      "does not count as passed.")));
    layout->addWidget(reason_);
    layout->addWidget(buttons);
    connect(reason_, &QLineEdit::textChanged, this,
            [this](const QString& text) { skip_->setEnabled(!text.trimmed().isEmpty()); });
    connect(reason_, &QLineEdit::returnPressed, this, &SkipDialog::say_it);
    connect(skip_, &QPushButton::clicked, this, &SkipDialog::say_it);
    connect(stay, &QPushButton::clicked, this, &QDialog::reject);
}

void SkipDialog::ask(const QString& place, const QString& sentence)
{
    what_->setText(tr("Leave out: %1").arg(place));
    setWindowTitle(what_->text());
    step_->setText(sentence);
    reason_->clear();
    skip_->setEnabled(false);
    show();
    activateWindow();
    reason_->setFocus();
}

void SkipDialog::say_it()
{
    const auto reason = reason_->text().trimmed();
    if (!reason.isEmpty()) {
        accept();
        Q_EMIT skips(reason);
    }
}

} // namespace zeroline::window
