#include "gui/window/stop_page.hpp"

#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/tone_colours.hpp"

#include <QKeyEvent>
#include <QLabel>
#include <QVBoxLayout>

namespace zeroline::window {

namespace {

constexpr double kHeadline_pt = 48.0;
constexpr double kStopSentence_pt = 22.0;

} // namespace

StopPage::StopPage(QWidget* parent) : QWidget(parent)
{
    named(this, "stopPage", tr("stop"));
    setFocusPolicy(Qt::StrongFocus);
    setAutoFillBackground(true);
    auto colours = palette();
    colours.setColor(QPalette::Window, fill_of(session::Tone::critical));
    setPalette(colours);
    headline_ = large_label("stopHeadline", tr("what was seen"), kHeadline_pt, true);
    sentence_ = large_label("stopSentence", tr("what it means and what to do"), kStopSentence_pt);
    contact_ = large_label("stopContact", tr("whom to call"), kStopSentence_pt);
    understood_ = primary(button("understood", QString()));
    understood_->setFont(sentence_->font()); // the one thing to do here
    connect(understood_, &QPushButton::clicked, this, &StopPage::understood);
    // The words may be longer than the window; what is to be done stands below them, always in sight.
    auto* words = column_of({headline_, sentence_, contact_});
    auto* column = static_cast<QVBoxLayout*>(words->layout());
    column->setSpacing(24);
    column->insertStretch(0, 1);
    column->addStretch(2);
    auto* scroll = scrolled(words, "stopScroll", tr("what was seen"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(24, 24, 24, 24);
    layout->addWidget(scroll, 1);
    layout->addWidget(understood_, 0, Qt::AlignLeft);
    // By a style sheet: beneath that of the program a palette of a scroll area's inside is not heeded.
    setStyleSheet(QStringLiteral("QScrollArea, QScrollArea > QWidget > QWidget { background: %1; } "
                                 "QLabel { color: white; } QLabel#stopHeadline { color: %2; }")
                      .arg(fill_of(session::Tone::critical).name(), ink_on(session::Tone::critical, {}).name()));
}

void StopPage::show_sentence(const QString& headline, const QString& sentence, const QString& contact,
                             const QString& next)
{
    headline_->setText(headline);
    sentence_->setText(sentence);
    contact_->setText(contact);
    contact_->setVisible(!contact.isEmpty());
    understood_->setText(next);
    understood_->setAccessibleName(next);
    setAccessibleDescription(headline + u' ' + sentence);
}

void StopPage::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Space) {
        Q_EMIT understood();
        return;
    }
    QWidget::keyPressEvent(event);
}

} // namespace zeroline::window
