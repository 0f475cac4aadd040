#include "gui/window/question_panel.hpp"

#include "acquisition/trace/csv_cells.hpp"
#include "gui/session/checklist.hpp"
#include "gui/session/gauge_check.hpp"
#include "gui/session/shown_number.hpp"
#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <cmath>
#include <string>

namespace zeroline::window {

using verification::ProcedureStep;

namespace {

constexpr double kItem_pt = 18.0;
constexpr double kLargestValue = 1e9;
constexpr int kLettersOfValue = 24;

std::optional<double> typed_number(const std::string& text)
{
    const auto value = trace::number_in(text, text.find(',') == std::string::npos ? '.' : ',');
    return value && std::fabs(*value) <= kLargestValue ? value : std::nullopt;
}

QString limits_text(const ProcedureStep& step)
{
    const auto unit = step.unit.empty() ? QString() : u' ' + QString::fromStdString(step.unit);
    const auto basis = QString::fromStdString(step.basis);
    const auto number = [&](double value) { return session::shown_short(value) + unit; };
    if (step.low && step.high) {
        return QuestionPanel::tr("%1 to %2 (%3)").arg(number(*step.low), number(*step.high), basis);
    }
    if (step.low) {
        return QuestionPanel::tr("at least %1 (%2)").arg(number(*step.low), basis);
    }
    return step.high ? QuestionPanel::tr("at most %1 (%2)").arg(number(*step.high), basis) : QString();
}

} // namespace

QuestionPanel::QuestionPanel(session::BenchSession& session, QWidget* parent) : QWidget(parent), session_(session)
{
    named(this, "questionPage", tr("what the procedure asks"));
    item_ = large_label("stepItem", tr("what is asked about"), kItem_pt, true);
    limits_ = text_label("stepLimits", tr("limits"));
    told_ = text_label("stepTold", tr("what is missing"));
    value_ = text_field("stepValue", tr("value that was measured"));
    value_->setMaximumWidth(kLettersOfValue * value_->fontMetrics().averageCharWidth());
    unit_ = text_label("stepUnit", tr("unit of the value"));
    value_row_ = row_of({value_, unit_});
    let_grow(value_row_, 1);
    remark_ = text_field("stepRemark", tr("remark"));
    remark_->setPlaceholderText(tr("remark; or why it does not apply"));
    go_on_ = primary(button("stepInOrder", {}));
    not_in_order_ = button("stepNotInOrder", tr("Not in order  [N]"));
    not_applicable_ = button("stepNotApplicable", {});
    auto* keys = row_of({go_on_, not_in_order_, not_applicable_});
    put_gap(keys);
    auto* column = column_of({card_of({item_, limits_, value_row_, remark_, told_, keys})});
    static_cast<QVBoxLayout*>(column->layout())->addStretch(1);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(scrolled(column, "questionScroll", tr("what the procedure asks")));
    connect(go_on_, &QPushButton::clicked, this, &QuestionPanel::go_on);
    connect(not_in_order_, &QPushButton::clicked, this, &QuestionPanel::not_in_order);
    connect(not_applicable_, &QPushButton::clicked, this, &QuestionPanel::not_applicable);
    connect(value_, &QLineEdit::returnPressed, this, &QuestionPanel::take_value);
    connect(remark_, &QLineEdit::returnPressed, this, &QuestionPanel::take_remark);
}

const session::RunStep& QuestionPanel::step() const { return session_.steps()[session_.view().number]; }

bool QuestionPanel::asks_value() const { return step().kind != session::StepKind::check; }

void QuestionPanel::ask()
{
    const bool value = asks_value();
    const auto& source = step().source;
    wanted_.reset();
    outside_.reset();
    item_->setText(session::checklist_words(source.item));
    limits_->setText(limits_text(source));
    limits_->setVisible(value && !limits_->text().isEmpty());
    value_->clear();
    // Without a second gauge there is nothing to type.
    const bool gauge = step().kind == session::StepKind::gauge;
    const auto expects = session_.view().expects;
    const bool typed = value && !(gauge && expects.empty());
    value_row_->setVisible(typed);
    go_on_->setVisible(!value || typed);
    unit_->setText(QString::fromStdString(gauge ? expects : source.unit));
    remark_->clear();
    told_->clear();
    not_in_order_->setVisible(!value);
    go_on_->setText(value ? tr("Take this value  [Enter]") : tr("In order  [Space]"));
    not_applicable_->setText(value ? tr("Not measured  [X]") : tr("Does not apply  [X]"));
    if (typed) {
        value_->setFocus();
    }
}

void QuestionPanel::go_on() { asks_value() ? take_value() : say(Outcome::ok); }

void QuestionPanel::not_in_order()
{
    if (!asks_value()) {
        say(Outcome::not_ok);
    }
}

void QuestionPanel::not_applicable() { say(Outcome::not_applicable); }

void QuestionPanel::say(Outcome outcome)
{
    const auto remark = value_of(remark_);
    if (outcome != Outcome::ok && remark.empty()) {
        wanted_ = outcome;
        told_->setText(outcome == Outcome::not_ok ? tr("Say what is not in order, then Enter.")
                                                  : tr("Say why, then Enter."));
        remark_->setFocus();
    } else if (outcome == Outcome::not_applicable) {
        session_.skip(remark);
    } else {
        session_.answer(outcome, remark);
    }
}

/// A slip of the finger would fail the unit: what lies outside its limits is said once more.
void QuestionPanel::take_value()
{
    const auto value = typed_number(value_of(value_));
    if (!value) {
        told_->setText(tr("A number is expected, such as 0.12."));
        value_->setFocus();
        return;
    }
    const bool outside = session::item_of(step().source, *value).outcome == Outcome::not_ok;
    if (outside && outside_ != value) {
        outside_ = value;
        told_->setText(tr("That is outside the limits. Enter again if it stands."));
        return;
    }
    const auto digit = session::last_digit_of(value_of(value_));
    value_->clear(); // a gauge is read at more than one point
    told_->clear();
    session_.answer(*value, digit);
}

void QuestionPanel::take_remark()
{
    if (wanted_) {
        say(*wanted_);
    } else {
        told_->setText(tr("Choose what it is: the remark goes with it."));
    }
}

} // namespace zeroline::window
