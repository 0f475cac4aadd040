// What a person types while the run goes on.

#include "gui/console/guided_run.hpp"

#include "acquisition/trace/csv_cells.hpp"
#include "acquisition/trace/input_error.hpp"
#include "gui/console/typed_values.hpp"
#include "gui/session/checklist.hpp"
#include "gui/session/gauge_check.hpp"

#include <cmath>

namespace zeroline::console {

using session::Ending;
using session::StepKind;

namespace {

constexpr double kLargestValue = 1e9;

/// What stands behind the letter of an answer; none: the answer is another one.
std::optional<std::string> behind(const std::string& line, char letter)
{
    if (line.empty() || line.front() != letter || (line.size() > 1 && line[1] != ' ')) {
        return std::nullopt;
    }
    return line.size() > 2 ? line.substr(2) : std::string();
}

} // namespace

void GuidedRun::answer_step(const session::RunView& view, const std::string& line)
{
    using Outcome = verification::ChecklistItem::Outcome;
    const bool check = view.step == StepKind::check;
    const auto why_not = behind(line, 'x');
    const auto remark = behind(line, 'n');
    if (why_not && !why_not->empty()) {
        run_->skip(*why_not);
    } else if (check && line.empty()) {
        run_->answer(Outcome::ok, {});
    } else if (check && remark && !remark->empty()) {
        run_->answer(Outcome::not_ok, *remark);
    } else if (check) {
        terminal_.say("Enter: in order; n REMARK: not in order; x WHY: not applicable.");
    } else {
        try {
            run_->answer(number_typed(line, view.item, -kLargestValue, kLargestValue), session::last_digit_of(line));
        } catch (const trace::InputError& error) {
            terminal_.say(error.what());
        }
    }
}

void GuidedRun::obey(const std::string& line)
{
    const auto view = run_->view();
    if (line == "b") {
        run_->stop(Ending::given_back);
    } else if (!view.item.empty() && !line.starts_with("s ") && !line.starts_with("c ")) {
        answer_step(view, line);
    } else if (line == "g" && view.can_go_on) {
        run_->go_on();
    } else if (line == "g") {
        terminal_.say("Nothing stands in the way that 'g' could pass over: waiting for " + view.waits_for + '.');
    } else if (line.empty() && !view.can_confirm) {
        terminal_.say("Enter moves nothing on here: waiting for " + view.waits_for + '.');
    } else if (line.empty()) {
        run_->confirm();
    } else if (line == "s" || line.starts_with("s ")) {
        skip(line.size() > 2 ? line.substr(2) : std::string());
    } else if (line.starts_with("c ")) {
        note_check(line.substr(2));
    } else {
        terminal_.say(
            "Enter: done, go on; g: go on all the same; s REASON: leave this step out, where it may be; c "
            "ITEM=OUTCOME: a "
            "checklist item, or ITEM=VALUE for one that was measured; b: give the unit back now; Ctrl-C: end here.");
    }
}

void GuidedRun::skip(const std::string& reason)
{
    if (!run_->view().can_skip) {
        terminal_.say("This step cannot be left out.");
    } else if (reason.find_first_not_of(' ') == std::string::npos) {
        terminal_.say("Why is it left out? s and the reason.");
    } else {
        run_->skip(reason);
    }
}

/// ITEM=VALUE of something that was measured: typed once more.
bool GuidedRun::corrected_value(const std::string& typed)
{
    const auto equals = typed.find('=');
    const auto value =
        equals == std::string::npos
            ? std::nullopt
            : trace::number_in(typed.substr(equals + 1), typed.find(',', equals) == std::string::npos ? '.' : ',');
    return value && std::fabs(*value) <= kLargestValue && run_->correct(typed.substr(0, equals), *value);
}

void GuidedRun::note_check(const std::string& typed)
{
    try {
        if (corrected_value(typed)) {
            return;
        }
        session::note_item(checklist_, checklist_typed(typed, "c"));
        run_->set_checklist(checklist_);
    } catch (const trace::InputError& error) {
        terminal_.say(error.what());
    }
}

} // namespace zeroline::console
