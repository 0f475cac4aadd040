#include "gui/window/fault_choice.hpp"

#include "gui/session/bench_session.hpp"
#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"

#include <QAbstractItemView>
#include <QComboBox>
#include <QLineEdit>
#include <QVBoxLayout>

namespace zeroline::window {

namespace {

const auto kUntold = QStringLiteral("?");

} // namespace

FaultChoice::FaultChoice(QWidget* parent) : QWidget(parent)
{
    fault_ = choice_field("fault", tr("fault of the virtual bench"));
    fault_->addItem(tr("none: a healthy unit"), QString());
    fault_->addItem(tr("practice: one that nobody tells, or none"), kUntold);
    for (const auto& fault : session::offered_faults(session::Reader::screen)) {
        fault_->addItem(fault.line(), QString::fromStdString(fault.code));
    }
    // The list may be wider than its field: what each fault does is read to its end.
    fault_->view()->setMinimumWidth(fault_->view()->sizeHintForColumn(0) + kPage_px);
    size_ = text_field("faultSize", tr("size of the fault; empty: as the list of faults has it"));
    size_->setPlaceholderText(tr("size (optional)"));
    size_->setToolTip(size_->accessibleName());
    size_->setMaximumWidth(18 * size_->fontMetrics().averageCharWidth());
    auto* row = row_of({fault_, size_});
    let_grow(row, 0);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(row);
}

std::vector<std::string> FaultChoice::faults() const
{
    auto fault = fault_->currentData().toString();
    if (fault.isEmpty()) {
        return {};
    }
    if (const auto size = size_->text().trimmed(); !size.isEmpty()) {
        fault += size.startsWith(u'@') ? size : u'=' + QString(size).replace(u',', u'.');
    }
    return {fault.toStdString()};
}

void FaultChoice::add_bench(session::RunSetUp& made) const
{
    if (fault_->currentData().toString() == kUntold) {
        return session::turn_into_practice(made);
    }
    made.simulated = std::make_shared<session::SimulatedBench>(made.order.meaning, made.instrument.meaning, faults());
    made.port = made.simulated->port();
}

} // namespace zeroline::window
