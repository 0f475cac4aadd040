#include "gui/window/practice_page.hpp"

#include "gui/session/practice.hpp"
#include "gui/window/page_parts.hpp"

#include <QLabel>
#include <QListWidget>
#include <QVBoxLayout>

namespace zeroline::window {

namespace {

constexpr double kQuestion_pt = 24.0;

} // namespace

PracticePage::PracticePage(QWidget* parent) : QWidget(parent)
{
    named(this, "practicePage", tr("what was it?"));
    auto* question = large_label("practiceQuestion", tr("question"), kQuestion_pt, true);
    question->setText(tr("What was it?"));
    auto* how = text_label("practiceHow", tr("how to answer"),
                           tr("Choose what you have seen; then the result and what it was are shown."));
    answers_ = named(new QListWidget, "practiceAnswers", tr("what it may have been"));
    answers_->setWordWrap(true);
    for (const auto& answer : session::practice_answers(session::Reader::screen)) {
        auto* item = new QListWidgetItem(answer.line(), answers_);
        item->setData(Qt::UserRole, QString::fromStdString(answer.code));
    }
    that_is_it_ = primary(button("practiceAnswer", tr("That is it  [Enter]")));
    that_is_it_->setShortcut(QKeySequence(Qt::Key_Return));
    // The list makes its first row the current one when the keys come to it; only what was chosen is an answer.
    connect(answers_, &QListWidget::itemSelectionChanged, this,
            [this] { that_is_it_->setEnabled(!answers_->selectedItems().isEmpty()); });
    connect(answers_, &QListWidget::itemActivated, this, &PracticePage::answer);
    connect(that_is_it_, &QPushButton::clicked, this, &PracticePage::answer);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(kPage_px, kPage_px, kPage_px, kPage_px);
    layout->setSpacing(kGap_px);
    layout->addWidget(question);
    layout->addWidget(how);
    layout->addWidget(answers_, 1);
    layout->addWidget(that_is_it_, 0, Qt::AlignLeft);
    setFocusProxy(answers_);
    begin_anew();
}

void PracticePage::begin_anew()
{
    answers_->setCurrentRow(-1);
    answers_->clearSelection();
    answers_->scrollToTop();
    that_is_it_->setEnabled(false);
}

void PracticePage::answer()
{
    if (const auto chosen = answers_->selectedItems(); !chosen.isEmpty()) {
        Q_EMIT answered(chosen.front()->data(Qt::UserRole).toString());
    }
}

} // namespace zeroline::window
