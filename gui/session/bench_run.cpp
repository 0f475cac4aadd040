#include "gui/session/bench_run.hpp"

#include "gui/session/checklist.hpp"
#include "gui/session/run_words.hpp"
#include "gui/session/shown_number.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace zeroline::session {

using verification::Assessment;
using verification::Displayed;
using verification::Span;
using verification::SpanKind;

namespace {

constexpr double kPatience_s = 12.0; ///< a step is given so long before it says what may be wrong
constexpr double kMinute_s = 60.0;   ///< so often a wait is told
constexpr const char* kFoundAsPrescribed = "found-as-prescribed";
constexpr const char* kLeftAsPrescribed = "left-as-prescribed";

bool by_a_word(StepKind kind) { return kind == StepKind::confirm || kind == StepKind::hand_back; }

std::string told(Ending ending)
{
    switch (ending) {
    case Ending::completed:
        return said(Run::tr("The run is complete."));
    case Ending::critical:
        return said(Run::tr("The run is stopped."));
    case Ending::out_of_time:
        return said(Run::tr("The step waited too long: the run ends here, incomplete."));
    case Ending::line_gone:
        return said(Run::tr("The instrument did not come back: the run ends here, incomplete."));
    case Ending::not_saved:
        return said(Run::tr("What is captured can no longer be saved: the run ends here, incomplete."));
    case Ending::given_back:
        return said(Run::tr("The unit is needed: the run ends here, incomplete."));
    case Ending::interrupted:
        break;
    }
    return said(Run::tr("Interrupted: the run ends here, incomplete."));
}

} // namespace

std::string word_of(Ending ending)
{
    switch (ending) {
    case Ending::completed:
        return "completed";
    case Ending::critical:
        return "critical";
    case Ending::out_of_time:
        return "out-of-time";
    case Ending::line_gone:
        return "line-gone";
    case Ending::not_saved:
        return "not-saved";
    case Ending::given_back:
        return "given-back";
    case Ending::interrupted:
        break;
    }
    return "interrupted";
}

BenchRun::BenchRun(const verification::WorkOrder& order, RunSettings settings, Judge judge)
    : BenchRun(order, std::move(settings), std::move(judge), guided_run(order))
{
}

BenchRun::BenchRun(const verification::WorkOrder& order, RunSettings settings, Judge judge, std::vector<RunStep> steps)
    : order_(order), settings_(std::move(settings)), judge_(std::move(judge)), steps_(std::move(steps)),
      done_(steps_.size(), false), log_(settings_.log)
{
    enter(0);
}

const verification::Preset& BenchRun::preset() const
{
    const auto* found = order_.preset(step().preset);
    return found != nullptr ? *found : order_.presets.front();
}

void BenchRun::next()
{
    mains_out_ = mains_out_ && step().source.power != "mains";
    done_[at_] = true;
    enter(at_ + 1);
}

void BenchRun::enter(std::size_t number)
{
    close_span(last_s_);
    // What was answered before is not asked again.
    for (; number < steps_.size() && answered(steps_[number]); ++number) {
        done_[number] = true;
    }
    if (number >= steps_.size()) {
        end(ending_.value_or(Ending::completed));
        return;
    }
    at_ = number;
    mains_out_ = mains_out_ || step().source.power == "battery";
    step_from_s_ = last_s_;
    most_cmH2O_ = 0.0;
    done_at_s_ = 0.0;
    resting_ = stalled_ = false;
    reported_cycles_ = 0;
    first_span_ = log_.spans.size();
    seen_.clear();
    manual_tries_ = 0;
    off_limit_.reset();
    unrest_looked_at_s_ = last_s_;
    breaths_seen_ = 0;
    static_cast<void>(watch_.take());
    left_in_ = step().kind == StepKind::plug && watch_.begun() && watch_.pressing() ? watch_.now() : std::nullopt;
    work_ = work_of_step();
    begin_setting();
    if (step().kind == StepKind::zero_before || step().kind == StepKind::zero_after) {
        zero_.begin(last_s_);
    }
    progress();
    say(News::Kind::step, sentence());
}

std::string BenchRun::sentence() const
{
    if (step().kind == StepKind::gauge && !work_) {
        return why_no_gauge();
    }
    return step().kind == StepKind::hand_back ? hand_back_sentence(hand_back()) : step().sentence;
}

/// 'Zero again' was confirmed: the plug is out.
bool BenchRun::opened_again() const
{
    for (std::size_t i = 0; i + 1 < steps_.size(); ++i) {
        if (done_[i] && by_a_word(steps_[i].kind) && steps_[i + 1].kind == StepKind::zero_after) {
            return true;
        }
    }
    return false;
}

HandBack BenchRun::hand_back() const
{
    HandBack what;
    what.safe = opened_again();
    what.mains_out = mains_out_;
    if (result_ && result_->critical) {
        what.person = result_->may_be_a_breath();
        what.held = !result_->breath();
    }
    what.failed = !what.held && result_ && result_->not_given_out();
    return what;
}

verification::RunLog BenchRun::log() const
{
    auto log = log_;
    if (open_ && last_s_ > open_->from_s) {
        log.spans.push_back(*open_);
        log.spans.back().to_s = last_s_;
    }
    return log;
}

void BenchRun::confirmed(const std::string& code)
{
    if (!code.empty() && std::find(log_.confirmed.begin(), log_.confirmed.end(), code) == log_.confirmed.end()) {
        log_.confirmed.push_back(code);
    }
}

void BenchRun::not_confirmed(const std::string& code) { std::erase(log_.confirmed, code); }

void BenchRun::confirm()
{
    if (ended_) {
        return;
    }
    if (asks_hose_end_) {
        answer_about_hose_end(true);
    } else if (off_limit_) {
        off_limit_.reset();
        zero_.begin(last_s_);
        progress();
    } else if (work_) {
        work_->confirm();
    } else if (by_a_word(step().kind)) {
        confirmed(step().confirms);
        note_done(step().source.say);
        next();
    }
}

void BenchRun::go_on()
{
    if (ended_) {
        return;
    }
    if (asks_hose_end_) {
        answer_about_hose_end(false);
    } else if (off_limit_) {
        accept_zero(*off_limit_);
    } else if (cycles_by_itself(step().kind) && stalled_) {
        leave_undone();
    } else if (runs_at_something_else()) {
        open_ladder();
    } else if (work_ && work_->go_on()) {
        next();
    }
}

void BenchRun::stop(Ending why)
{
    if (ended_ || ending_) {
        return;
    }
    ending_ = why;
    asks_hose_end_ = false;
    returns_to_ = why == Ending::given_back ? std::optional(at_) : std::nullopt;
    say(why == Ending::critical ? News::Kind::critical : News::Kind::caution, told(why));
    const auto back =
        std::find_if(steps_.begin(), steps_.end(), [](const RunStep& one) { return one.kind == StepKind::hand_back; });
    enter(static_cast<std::size_t>(back - steps_.begin()));
}

void BenchRun::take_back()
{
    if (ended_ || !returns_to_) {
        return;
    }
    ending_.reset();
    enter(*std::exchange(returns_to_, std::nullopt));
}

void BenchRun::abandon(Ending why)
{
    if (!ended_) {
        close_span(last_s_);
        end(ending_ == Ending::critical ? Ending::critical : why);
    }
}

void BenchRun::end(Ending why)
{
    ending_ = why;
    ended_ = true;
    say(News::Kind::end, told(why));
}

void BenchRun::set_displayed(std::vector<Displayed> displayed) { log_.displayed = std::move(displayed); }

void BenchRun::set_found(std::map<std::string, verification::Settings> found, bool as_prescribed)
{
    not_confirmed(kFoundAsPrescribed);
    if (found.empty()) {
        log_.settings_found.reset();
    } else {
        log_.settings_found = std::move(found);
    }
    settings_.log.settings_found = log_.settings_found;
    if (as_prescribed) {
        confirmed(kFoundAsPrescribed);
    }
}

void BenchRun::set_returned(bool done, std::optional<std::map<std::string, verification::Settings>> settings_left,
                            bool left_as_prescribed)
{
    if (left_as_prescribed) {
        confirmed(kLeftAsPrescribed);
    }
    const bool held = hand_back().held;
    if (held) {
        using Outcome = verification::ChecklistItem::Outcome;
        note_item(log_.checklist, {kHeldItem, done ? Outcome::ok : Outcome::not_ok, {}});
    }
    log_.restored = done && !held;
    log_.settings_left = std::move(settings_left);
}

void BenchRun::line_lost()
{
    lost_ = true;
    watch_.gap();
    say(News::Kind::caution, said(Run::tr("The instrument is gone: the run waits for it.")));
}

void BenchRun::line_back()
{
    lost_ = false;
    zero_.begin(last_s_);
    progress();
    say(News::Kind::seen, said(Run::tr("The instrument is back: the run goes on.")));
}

bool BenchRun::waits_for_pressure() const
{
    return !by_a_word(step().kind) && !asks(step().kind) && !off_limit_ && !asks_hose_end_ &&
           !(work_ && work_->waits_for_word());
}

void BenchRun::advance(double now_s)
{
    const double passed_s = now_s - std::exchange(now_s_, now_s);
    if (!std::exchange(clock_runs_, true)) {
        progress(); // the clock may have any beginning
    }
    if (lost_) {
        progress_at_s_ += passed_s;
    }
    const double allowed_s = settings_.wait_s + (resting_ ? settings_.duty.rest_s : 0.0) + step().source.seconds;
    const bool waits = waits_for_pressure() || (settings_.reminds && step().kind != StepKind::hand_back);
    if (!ended_ && waits && now_s_ - progress_at_s_ > allowed_s) {
        time_is_up();
    } else if (!ended_ && waits && settings_.reminds) {
        remind();
    }
}

void BenchRun::remind()
{
    const int minutes = static_cast<int>((now_s_ - progress_at_s_) / kMinute_s);
    if (minutes <= reminded_) {
        return;
    }
    reminded_ = minutes;
    const auto hint = step().check.empty() ? QString() : u' ' + QString::fromStdString(step().check);
    say(News::Kind::caution, said(Run::tr("Waiting for %1, %2 min by now.%3 Esc gives the unit back.")
                                      .arg(QString::fromStdString(view().waits_for))
                                      .arg(minutes)
                                      .arg(hint)));
}

void BenchRun::time_is_up()
{
    if (work_) {
        skip("nothing came in the time that a step is waited for");
        return;
    }
    if (cycles_by_itself(step().kind) && cycles_seen() > 0) {
        say(News::Kind::caution, said(Run::tr("No further cycle came: going on with what was seen.")));
        leave_undone();
        return;
    }
    if (step().kind == StepKind::zero_before && zero_.last_stretch()) {
        // Kept although it was never quiet: the assessment says what moved.
        const auto stretch = *zero_.last_stretch();
        log_.spans.push_back({SpanKind::zero_before, {}, stretch.from_s, stretch.to_s, {}, {}, {}, {}, {}});
        judge();
    }
    stop(Ending::out_of_time);
}

std::vector<News> BenchRun::take_news() { return std::exchange(news_, {}); }

RunView BenchRun::view() const
{
    RunView view;
    view.step = step().kind;
    view.number = at_;
    view.steps = steps_.size();
    view.place = step().place;
    view.sentence = sentence();
    view.waits_for = step().waits_for;
    view.preset = step().preset;
    view.deed = deed_now();
    view.holds = seen_.size();
    view.phase = watch_.now();
    view.phase_from_s = watch_.now_from_s();
    view.line_lost = lost_;
    view.asks_hose_end = asks_hose_end_;
    // An answer has a name and a time.
    const bool can_answer = asks_hose_end_ && !log_.run_operator.empty() && settings_.now;
    view.can_confirm = asks_hose_end_ ? can_answer : by_a_word(step().kind) || off_limit_.has_value();
    view.can_go_on = asks_hose_end_ || off_limit_.has_value() || (cycles_by_itself(step().kind) && stalled_) ||
                     runs_at_something_else();
    view.dialled = step().dialled;
    if (step().orifice) {
        view.orifice_mm = step().orifice->diameter_mm;
    }
    view.item = asks(step().kind) ? step().source.item : std::string();
    view.expects = step().kind == StepKind::value ? expected_of(step().source) : std::string();
    view.can_skip = can_be_skipped().has_value() || (asks(step().kind) && !ended_);
    const bool overdue = now_s_ - progress_at_s_ > std::max(std::min(settings_.wait_s, kMinute_s) / 3.0, kPatience_s);
    view.can_take_back = returns_to_.has_value() && !ended_;
    if (waits_for_pressure() && overdue) {
        view.check = step().check;
    }
    add_what_is_due(view);
    return view;
}

void BenchRun::add_what_is_due(RunView& view) const
{
    if (asks_hose_end_) {
        view.sentence = said(Run::tr("Stop the unit. Is a person, a bag or a soft tube connected? Take the hose off a "
                                     "person first; look at the hose end and the plug."));
        view.waits_for = said(Run::tr("your word: nothing soft, plug seen; or go on without it (the record will be "
                                      "incomplete)"));
    } else if (off_limit_) {
        view.sentence =
            said(Run::tr("Zero reads %1 cmH2O, the limit is %2: is the line off the tee and open? Set the "
                         "instrument to zero and read again.")
                     .arg(shown_signed(off_limit_->mean_cmH2O, 2), shown(settings_.zero_offset_limit_cmH2O, 2)));
        view.waits_for =
            said(Run::tr("your word: read again, or go on with this zero (the record will be incomplete)"));
    } else if (step().kind == StepKind::zero_before || step().kind == StepKind::zero_after) {
        view.progress = zero_.progress();
        view.check = zero_.disturbed() && view.check.empty()
                         ? said(Run::tr("something moves: hold the open line still"))
                         : view.check;
    } else if (step().kind == StepKind::manual) {
        view.sentence = asked_now();
        view.held_s = held_s();
        const double share = std::min(view.held_s.value_or(0.0) / kHold_s, 1.0);
        view.progress =
            std::min((static_cast<double>(seen_.size()) + share) / static_cast<double>(step().asked.size()), 1.0);
    } else if (cycles_by_itself(step().kind)) {
        view.sentence = automatic_sentence();
        view.progress = std::min(1.0, static_cast<double>(judged_cycles()) / cycles_needed());
        view.duty = duty_now();
    } else if (work_) {
        work_->show(view);
    } else if (step().source.seconds > 0.0) {
        const double still_s = std::min(watch_.still_for_s(), last_s_ - step_from_s_);
        view.duty = DutyClock{0.0, 0.0, std::max(0.0, step().source.seconds - still_s)};
        view.progress = std::min(1.0, still_s / step().source.seconds);
    }
}

Deed BenchRun::deed_now() const
{
    if (ended_) {
        return Deed::nothing;
    }
    if (asks_hose_end_) {
        return Deed::stop_unit;
    }
    if (step().kind == StepKind::manual) {
        if (seen_.size() >= step().asked.size()) {
            return Deed::let_go;
        }
        return step().asked[seen_.size()] == verification::Step::insufflation ? Deed::insufflate : Deed::exsufflate;
    }
    if (cycles_by_itself(step().kind)) {
        const Deed begins = step().kind == StepKind::ladder ? Deed::dial : Deed::start_automatic;
        const Deed at_work = open_ ? Deed::nothing : begins;
        return resting_ ? Deed::stop_unit : at_work;
    }
    return step().deed;
}

} // namespace zeroline::session
