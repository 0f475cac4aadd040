// What the start page refuses before a run begins.

#include "acquisition/trace/input_error.hpp"
#include "gui/session/sealing_needs.hpp"
#include "gui/window/demonstration.hpp"
#include "gui/window/file_choice.hpp"
#include "gui/window/form_fields.hpp"
#include "gui/window/procedure_choice.hpp"
#include "gui/window/register_rows.hpp"
#include "gui/window/start_page.hpp"

#include <QLineEdit>
#include <QPushButton>

namespace zeroline::window {

using trace::InputError;

void StartPage::check_for_a_real_port(const session::RunSetUp& made) const
{
    if (!session::is_simulated(made.port)) {
        refuse_demonstration(made.order.meaning, order_->file().toStdString());
        refuse_demonstration(made.instrument.meaning, instrument_->file().toStdString());
    }
    const auto* bench = made.bench ? &made.bench->meaning : nullptr;
    begin_unsealed_->setVisible(
        !unsealed_ && !session::sealing_needs(made.order.meaning, bench, made.place, made.run_operator).empty());
    if (!unsealed_) {
        session::refuse_open_needs(made.order.meaning, bench, made.place, made.run_operator);
    }
}

/// A procedure for one occasion and an order for another: what is done with the unit at the end goes by the order.
bool StartPage::ask_which_occasion(const verification::WorkOrder& order)
{
    const auto only_for = procedure_->only_for().value_or(order.occasion);
    if (only_for == order.occasion) {
        return false;
    }
    const auto word = [](verification::Occasion occasion) {
        return register_text("occasion", verification::word_of(occasion));
    };
    const auto sentence = tr("The order is for: %1. The procedure is for: %2. Which is it? Choose the other procedure, "
                             "or edit the occasion of the order.")
                              .arg(word(order.occasion), word(only_for));
    procedure_->show_summary(session::sign_of(session::Tone::fail) + u' ' + sentence);
    show_trouble(sentence);
    return true;
}

/// What was scanned or typed has to be the unit of the order: nobody verifies one and signs for another.
void StartPage::refuse_another_unit(const verification::WorkOrder& order) const
{
    const auto scanned = value_of(asset_);
    if (!scanned.empty() && scanned != order.unit.asset) {
        throw InputError(scanned, "is not the unit of the order, which is " + order.unit.asset,
                         "the order of the unit that was scanned, or the field left empty");
    }
}

} // namespace zeroline::window
