// What a person says to a run: by a key, a button, a scanner.

#include "gui/charts/trace_chart.hpp"
#include "gui/session/checklist.hpp"
#include "gui/window/hand_back_panel.hpp"
#include "gui/window/question_panel.hpp"
#include "gui/window/run_page.hpp"
#include "gui/window/run_text.hpp"
#include "gui/window/scan_question.hpp"
#include "gui/window/settings_fields.hpp"
#include "gui/window/skip_dialog.hpp"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>

namespace zeroline::window {

using session::StepKind;

void RunPage::ask_about_scan(const QString& code)
{
    scan_question_->ask(code, session_.set_up().order.meaning.unit);
    scanned_->hide(); // the question says it
    show_middle();
    setFocus(); // on no answer: Space is pressed out of habit
}

void RunPage::take_scan_answer(const verification::ChecklistItem& answer)
{
    scan_answer_ = answer;
    scanned_->hide(); // it is answered
    asset_->clear();
    note_looked_at();
    if (answer.outcome == verification::ChecklistItem::Outcome::not_ok) {
        session_.give_back();
    }
    show_middle();
    setFocus();
}

void RunPage::say_as_prescribed()
{
    if (middle_->currentWidget() == found_page_) {
        found_->say_as_prescribed();
    } else if (hand_back_ != nullptr && middle_->currentWidget() == hand_back_) {
        hand_back_->say_as_prescribed();
    }
}

/// Escape closes what is open first.
void RunPage::close_or_give_back()
{
    if (checks_->isChecked()) {
        checks_->setChecked(false);
    } else {
        scan_question_->close_it();
        session_.give_back();
    }
}

void RunPage::ask_why_skipped()
{
    if (const auto view = session_.view(); view.can_skip && !session::asks(view.step)) {
        skip_dialog_->ask(place_name(view.place), QString::fromStdString(view.sentence));
    }
}

void RunPage::take_asset(const QString& text)
{
    const auto code = text.trimmed();
    asset_->setText(code);
    session_.note_scanned(code.toStdString());
    scanned_->show();
    const auto asset = QString::fromStdString(session_.set_up().order.meaning.unit.asset);
    scanned_->setText(
        code == asset
            ? tr("%1 the unit of this order").arg(session::sign_of(session::Tone::pass))
            : tr("%1 not the unit of this order, which is %2").arg(session::sign_of(session::Tone::fail), asset));
    if (code == asset) {
        scan_question_->close_it();
        show_middle();
    } else if (!code.isEmpty()) {
        ask_about_scan(code);
    }
}

void RunPage::keyPressEvent(QKeyEvent* event)
{
    if (scan_question_->take_key(event->key())) {
        return;
    }
    switch (event->key()) {
    case Qt::Key_Space:
        return go_on_by_space();
    case Qt::Key_Escape:
        return close_or_give_back();
    case Qt::Key_A:
        return say_as_prescribed();
    case Qt::Key_S:
        return ask_why_skipped();
    case Qt::Key_C:
        return checks_->toggle();
    case Qt::Key_N:
    case Qt::Key_X:
        if (middle_->currentWidget() == question_) {
            return event->key() == Qt::Key_N ? question_->not_in_order() : question_->not_applicable();
        }
        break;
    case Qt::Key_G:
        if (go_on_anyway_->isVisible()) {
            return session_.go_on();
        }
        break;
    case Qt::Key_Plus:
    case Qt::Key_Minus:
    case Qt::Key_Left:
    case Qt::Key_Right:
    case Qt::Key_Home:
    case Qt::Key_End:
        // The trace takes all of these: they do not come back.
        QCoreApplication::sendEvent(chart_, event);
        return;
    default:
        break;
    }
    QWidget::keyPressEvent(event);
}

void RunPage::go_on_by_space()
{
    const auto view = session_.view();
    if (scan_question_->open()) {
        return; // which unit it is comes first
    }
    if (view.step == StepKind::hand_back && hand_back_ != nullptr) {
        hand_back_->go_on();
    } else if (middle_->currentWidget() == question_) {
        question_->go_on();
    } else if (view.can_confirm) {
        session_.confirm();
    }
}

} // namespace zeroline::window
