#include "gui/window/scan_question.hpp"

#include "gui/window/page_parts.hpp"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include <utility>

namespace zeroline::window {

namespace {

constexpr double kScanQuestion_pt = 18.0;

} // namespace

ScanQuestion::ScanQuestion(QWidget* parent) : QWidget(parent)
{
    named(this, "scanQuestionPage", tr("which unit this is"));
    setFocusPolicy(Qt::StrongFocus);
    question_ = large_label("scanQuestion", tr("which unit this is"), kScanQuestion_pt, true);
    // What is safe whatever is true comes first.
    auto* other = primary(button("scanIsAnother", tr("It is another unit: hand it back  [1]")));
    auto* is_the_unit = button("scanIsTheUnit", tr("It is the unit of the order: the wrong code was scanned  [2]"));
    connect(other, &QPushButton::clicked, this, [this] { answer(false); });
    connect(is_the_unit, &QPushButton::clicked, this, [this] { answer(true); });
    auto* row = row_of({other, is_the_unit});
    put_gap(row);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(card_of({question_, row}));
    hide();
}

void ScanQuestion::ask(const QString& code, const verification::UnitUnderTest& unit)
{
    code_ = code;
    question_->setText(tr("%1 was scanned, the order is for %2, serial number %3. Which unit is on the bench?")
                           .arg(code, QString::fromStdString(unit.asset), QString::fromStdString(unit.serial)));
}

bool ScanQuestion::take_key(int key)
{
    if (!open() || (key != Qt::Key_1 && key != Qt::Key_2)) {
        return false;
    }
    answer(key == Qt::Key_2);
    return true;
}

void ScanQuestion::answer(bool is_the_unit)
{
    using Outcome = verification::ChecklistItem::Outcome;
    // The record stays English, whatever the screen speaks.
    const auto said = std::exchange(code_, {}).toStdString() +
                      (is_the_unit ? " was scanned; the unit was said to be that of the order"
                                   : " was scanned; it is not the unit of the order");
    Q_EMIT answered({"unit scanned", is_the_unit ? Outcome::ok : Outcome::not_ok, said});
}

} // namespace zeroline::window
