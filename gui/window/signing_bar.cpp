#include "gui/window/signing_bar.hpp"

#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSettings>
#include <QStandardItemModel>
#include <QVBoxLayout>

#include <utility>

namespace zeroline::window {

SigningBar::SigningBar(QWidget* parent) : QWidget(parent)
{
    told_ = text_label("told", tr("what was done last"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(kPage_px, 0, kPage_px, 0);
    layout->setSpacing(kAir_px);
    for (auto* part : {static_cast<QWidget*>(told_), unit_row_ = make_unit(), signing_ = make_signing(),
                                                     leaving_ = make_leaving(), make_buttons()}) {
        layout->addWidget(part);
    }
}

QWidget* SigningBar::make_signing()
{
    signer_ = text_field("signer", tr("name"));
    role_ = text_field("role", tr("role"));
    for (auto* field : {signer_, role_}) {
        field->setPlaceholderText(field->accessibleName());
    }
    meaning_ = choice_field("meaning", tr("meaning of the signature"));
    for (const auto& [text, code] :
         {std::pair{tr("performed by"), "performed the verification and answers for this record"},
          {tr("reviewed by"), "reviewed the verification and this record"},
          {tr("approved by"), "approved this record"}}) {
        meaning_->addItem(text, QLatin1String(code));
    }
    const QSettings settings;
    signer_->setText(settings.value(QStringLiteral("sign/name")).toString());
    role_->setText(settings.value(QStringLiteral("sign/role")).toString());
    auto* row = row_of({meaning_, signer_, role_});
    let_grow(row, 1, 2);
    let_grow(row, 2);
    return row;
}

/// What is done with the unit: nothing is said until somebody chooses.
QWidget* SigningBar::make_unit()
{
    using Unit = verification::Disposition::Unit;
    unit_ = choice_field("unitIs", tr("what is done with the unit"));
    constexpr int letters = 22; // of what is chosen while nobody has said anything
    unit_->setMinimumContentsLength(letters);
    for (const auto& [text, said] : {std::pair{tr("the unit: nothing said"), Unit::not_said},
                                     {tr("the unit: released for use"), Unit::released},
                                     {tr("the unit: kept out of use"), Unit::kept_out}}) {
        unit_->addItem(text, static_cast<int>(said));
    }
    reason_ = text_field("keepOutReason", tr("why it is kept out of use"));
    loaner_ = text_field("loaner", tr("number of the loaner, if one was arranged"));
    adjusted_by_ = text_field("adjustedBy", tr("adjusted before this run by"));
    for (auto* field : {reason_, loaner_, adjusted_by_}) {
        field->setPlaceholderText(field->accessibleName());
    }
    authorised_ = check_field("authorised", tr("authorised"));
    connect(unit_, &QComboBox::currentIndexChanged, this, &SigningBar::show_unit);
    connect(adjusted_by_, &QLineEdit::textChanged, this, &SigningBar::show_unit);
    auto* row = row_of({unit_, reason_, loaner_, adjusted_by_, authorised_});
    let_grow(row, 1, 2);
    let_grow(row, 2);
    let_grow(row, 3);
    return row;
}

void SigningBar::show_unit()
{
    const bool out = unit_->currentData().toInt() == static_cast<int>(verification::Disposition::Unit::kept_out);
    reason_->setVisible(out);
    loaner_->setVisible(out);
    authorised_->setVisible(!adjusted_by_->text().isEmpty());
}

void SigningBar::begin_unit(bool may_be_released)
{
    unit_->setCurrentIndex(0);
    for (auto* field : {reason_, loaner_, adjusted_by_}) {
        field->clear();
    }
    authorised_->setChecked(false);
    const int released = unit_->findData(static_cast<int>(verification::Disposition::Unit::released));
    qobject_cast<QStandardItemModel*>(unit_->model())->item(released)->setEnabled(may_be_released);
    show_unit();
}

verification::Disposition SigningBar::disposition() const
{
    const auto unit = static_cast<verification::Disposition::Unit>(unit_->currentData().toInt());
    const bool out = unit == verification::Disposition::Unit::kept_out;
    return {unit, out ? value_of(reason_) : std::string(), out ? value_of(loaner_) : std::string(),
            value_of(adjusted_by_), authorised_->isChecked()};
}

QWidget* SigningBar::make_leaving()
{
    auto* question = text_label("leaving", tr("leaving without a signature"),
                                tr("Nobody has signed this run: it is no record. It stays as it is, and can be opened "
                                   "and signed later."));
    auto* leave = button("leaveUnsigned", tr("Leave it unsigned"));
    stay_ = button("staySigned", tr("Stay here"));
    connect(leave, &QPushButton::clicked, this, &SigningBar::leavesUnsigned);
    connect(stay_, &QPushButton::clicked, this, [this] {
        leaving_->hide();
        signer_->setFocus();
    });
    auto* row = row_of({question, leave, stay_});
    let_grow(row, 0);
    row->hide();
    return row;
}

/// What can be done: before it is signed, and after.
QWidget* SigningBar::make_buttons()
{
    what_ = choice_field("what", tr("what is printed"));
    what_->addItem(tr("record"), QStringLiteral("record"));
    what_->addItem(tr("label"), QStringLiteral("label"));
    what_->addItem(tr("tag for a unit kept out of use"), QStringLiteral("tag"));
    what_->addItem(tr("copy for home"), QStringLiteral("home"));
    print_ = button("print", tr("&Print..."));
    pdf_ = button("pdf", tr("Save as P&DF..."));
    next_ = button("next", tr("Ne&xt unit"));
    save_ = button("save", tr("&Sign and save"));
    save_next_ = primary(button("saveNext", tr("Sign, make the PDF, next unit  [Ctrl+Enter]")));
    save_next_->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_Return));
    connect(save_, &QPushButton::clicked, this, &SigningBar::saves);
    connect(save_next_, &QPushButton::clicked, this, &SigningBar::savesAndGoesOn);
    connect(print_, &QPushButton::clicked, this, &SigningBar::prints);
    connect(pdf_, &QPushButton::clicked, this, &SigningBar::savesPdf);
    connect(next_, &QPushButton::clicked, this, &SigningBar::goesOn);
    auto* row = row_of({save_next_, save_, next_, what_, print_, pdf_});
    put_gap(row, 3);
    return row;
}

void SigningBar::show_state(bool can_sign, bool can_print)
{
    leaving_->hide();
    signing_->setVisible(can_sign);
    unit_row_->setVisible(can_sign);
    // Once nothing is left to sign, going on is the one thing to do.
    make_primary(next_, !can_sign);
    for (auto* one : {save_, save_next_}) {
        one->setEnabled(can_sign);
        one->setVisible(can_sign);
    }
    for (QWidget* one : std::initializer_list<QWidget*>{what_, print_, pdf_}) {
        one->setEnabled(can_print);
        one->setVisible(can_print);
    }
}

void SigningBar::tell(const QString& sentence)
{
    told_->setText(sentence);
    told_->setVisible(!sentence.isEmpty());
}

void SigningBar::ask_about_leaving()
{
    leaving_->show();
    stay_->setFocus();
}

void SigningBar::suggest_signer(const std::string& name)
{
    if (signer_->text().isEmpty()) {
        put(signer_, name);
    }
}

session::Signing SigningBar::signing() const
{
    return {value_of(signer_), value_of(role_), meaning_->currentData().toString().toStdString(), disposition()};
}

void SigningBar::remember() const
{
    QSettings settings;
    settings.setValue(QStringLiteral("sign/name"), signer_->text());
    settings.setValue(QStringLiteral("sign/role"), role_->text());
}

QString SigningBar::what() const { return what_->currentData().toString(); }

} // namespace zeroline::window
