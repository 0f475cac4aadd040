#include "gui/window/once_more.hpp"

#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace zeroline::window {

OnceMore::OnceMore(QWidget* parent) : QWidget(parent)
{
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(card_of({heading(tr("Once more")), make_as_left(), at_fault_ = make_again()}));
}

QWidget* OnceMore::make_as_left()
{
    done_ = text_field("done", tr("what was done to the unit"));
    done_->setPlaceholderText(done_->accessibleName());
    auto* as_left = button("asLeft", tr("As-left run"));
    as_left->setToolTip(tr("after an authorised adjustment: this run stays as the as-found one"));
    connect(as_left, &QPushButton::clicked, this, &OnceMore::ask_as_left);
    auto* row = row_of({new QLabel(tr("After an adjustment:")), done_, as_left});
    let_grow(row, 1);
    return row;
}

QWidget* OnceMore::make_again()
{
    cause_ = choice_field("cause", tr("what was wrong with the set-up"));
    for (const auto& [text, code] : {std::pair{tr("zero"), "zero"},
                                     {tr("plug"), "plug"},
                                     {tr("hose"), "hose"},
                                     {tr("instrument"), "instrument"}}) {
        cause_->addItem(text, QLatin1String(code));
    }
    evidence_ = text_field("evidence", tr("what shows that the set-up was at fault"));
    evidence_->setPlaceholderText(evidence_->accessibleName());
    auto* again = button("again", tr("Run again"));
    again->setToolTip(tr("the set-up was at fault: the new run stands in place of this one"));
    connect(again, &QPushButton::clicked, this, &OnceMore::ask_again);
    auto* row = row_of({new QLabel(tr("At fault:")), cause_, evidence_, again});
    let_grow(row, 2);
    return row;
}

void OnceMore::show_for(bool agreed, bool saved)
{
    at_fault_->setVisible(!agreed);
    saved_ = saved;
}

void OnceMore::ask_as_left()
{
    const auto done = done_->text().trimmed();
    if (!saved_ || done.isEmpty()) {
        Q_EMIT lacks(tr("Sign and save the as-found run first, and say what was done to the unit since."));
        done_->setFocus();
        return;
    }
    Q_EMIT wantsAgain({}, done);
}

void OnceMore::ask_again()
{
    const auto evidence = evidence_->text().trimmed();
    if (evidence.isEmpty()) {
        Q_EMIT lacks(tr("Say what shows that the set-up was at fault: a later run replaces this one only with its "
                        "evidence."));
        evidence_->setFocus();
        return;
    }
    Q_EMIT wantsAgain(cause_->currentData().toString(), evidence);
}

} // namespace zeroline::window
