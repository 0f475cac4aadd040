// How a run moves on by what the pressure does.

#include "gui/session/bench_run.hpp"

#include "gui/session/run_words.hpp"
#include "gui/session/shown_number.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace zeroline::session {

using signal::PhaseKind;
using verification::Span;
using verification::SpanKind;

namespace {

constexpr double kBeforeOnset_s = 1.5;      ///< a span begins so long before pressure was recognised
constexpr double kAfterManual_s = 1.0;      ///< the return to zero belongs to the last hold
constexpr double kAtRestBehindHold_s = 0.4; ///< a pause is recognised after 0.2 s
constexpr double kGasSettled_s = 3.5;       ///< after a transition trapped gas cools or warms back
constexpr double kLeastStall_s = 10.0;      ///< shorter standing still may be a long pause (docs/method.md)
constexpr double kStallMargin_s = 2.0;
constexpr double kLookAtUnrest_s = 5.0;
constexpr double kHardlyAny_cmH2O = 0.3; ///< more than a hand at the plug moves, less than any unit gives
constexpr double kFarTooLow = 0.5;       ///< of what is prescribed: no unit is off by so much that runs at all
constexpr int kBreathsForSure = 2;
constexpr double kRestIsNear = 0.9; ///< a unit that stops after this share of the duty limit stops for its rest

bool is_sign(PhaseKind kind, verification::Step asked)
{
    return kind == (asked == verification::Step::insufflation ? PhaseKind::insufflation : PhaseKind::exsufflation);
}

Span span_of(SpanKind what, const QuietStretch& stretch)
{
    Span span;
    span.what = what;
    span.from_s = stretch.from_s;
    span.to_s = stretch.to_s;
    return span;
}

std::string seen_text(const Dwell& dwell)
{
    const auto level = shown_signed(dwell.level_cmH2O, 1);
    return said(dwell.kind == PhaseKind::insufflation ? Run::tr("insufflation seen, about %1 cmH2O").arg(level)
                                                      : Run::tr("exsufflation seen, about %1 cmH2O").arg(level));
}

} // namespace

void BenchRun::push(std::span<const LiveSample> samples)
{
    for (const auto& sample : samples) {
        if (ended_) {
            return;
        }
        take_sample(sample);
    }
}

void BenchRun::take_sample(const LiveSample& sample)
{
    last_s_ = sample.time_s;
    if (watch_.begun()) {
        watch_.push(sample);
        const bool cycles = open_ && cycles_by_itself(step().kind);
        duty_.note(sample.time_s, cycles, watch_.still_for_s(), settings_.duty.rest_s);
    }
    if (asks_hose_end_) {
        return;
    }
    if (work_) {
        if (watch_.begun() && work_->take(sample, watch_)) {
            next();
        }
        return;
    }
    switch (step().kind) {
    case StepKind::zero_before:
        return zero_before(sample);
    case StepKind::plug:
        return plug();
    case StepKind::manual:
        return manual();
    case StepKind::automatic:
    case StepKind::ladder:
        return automatic();
    case StepKind::stand_still:
        return stand_still();
    case StepKind::zero_after:
        return zero_after(sample);
    case StepKind::confirm:
    case StepKind::check:
    case StepKind::value:
    case StepKind::gauge:
    case StepKind::leak:
    case StepKind::strength:
    case StepKind::hand_back:
        return;
    }
}

void BenchRun::zero_before(const LiveSample& sample)
{
    if (off_limit_) {
        return;
    }
    const auto stretch = zero_.push(sample);
    if (!stretch) {
        look_at_unrest();
        return;
    }
    if (std::fabs(stretch->mean_cmH2O) > settings_.zero_offset_limit_cmH2O) {
        off_limit_ = stretch;
        say(News::Kind::caution, view().sentence);
        return;
    }
    accept_zero(*stretch);
}

/// A zero that will not come to rest may be a person at the line: that stops the run before the hose is shut. A hand
/// that takes the line off sways too, but not for long.
void BenchRun::look_at_unrest()
{
    if (!judge_ || !zero_.disturbed() || last_s_ - unrest_looked_at_s_ < kLookAtUnrest_s) {
        return;
    }
    unrest_looked_at_s_ = last_s_;
    auto so_far = log_;
    so_far.spans.push_back(span_of(SpanKind::zero_before, *zero_.last_stretch()));
    auto assessment = judge_(so_far);
    const auto is_breath = [](const verification::Finding& finding) { return finding.code == "breathing"; };
    const bool breath = std::any_of(assessment.findings.begin(), assessment.findings.end(), is_breath);
    breaths_seen_ = breath ? breaths_seen_ + 1 : 0;
    if (breaths_seen_ >= kBreathsForSure) {
        log_ = std::move(so_far);
        take_result(std::move(assessment));
        stop_for_what_is_critical();
    }
}

void BenchRun::accept_zero(const QuietStretch& stretch)
{
    const bool before = step().kind == StepKind::zero_before;
    log_.spans.push_back(span_of(before ? SpanKind::zero_before : SpanKind::zero_after, stretch));
    say(News::Kind::seen, said(Run::tr("zero reads %1 cmH2O, noise %2")
                                   .arg(shown_signed(stretch.mean_cmH2O, 2), shown(stretch.noise_cmH2O, 2))));
    if (before) {
        watch_.begin(stretch.mean_cmH2O, stretch.noise_cmH2O);
    }
    judge();
    if (!ending_) {
        next();
    }
}

void BenchRun::zero_after(const LiveSample& sample)
{
    zero_.not_before(watch_.last_active_s() + kGasSettled_s);
    if (const auto stretch = zero_.push(sample)) {
        accept_zero(*stretch);
    }
}

void BenchRun::plug()
{
    if (left_in_ && watch_.now() == left_in_) {
        return; // what the syringe pressed in
    }
    left_in_.reset();
    if (watch_.pressing()) {
        const double from_s = std::max(step_from_s_, last_s_ - kBeforeOnset_s);
        confirmed(step().confirms);
        say(News::Kind::seen, said(Run::tr("pressure builds up")));
        next();
        if (step().kind == StepKind::manual) {
            open_span(SpanKind::manual, from_s);
        } else { // a procedure without holds by hand
            left_in_ = watch_.now();
        }
        return;
    }
    most_cmH2O_ = std::max(most_cmH2O_, std::fabs(watch_.pressure_cmH2O()));
    if (most_cmH2O_ > kHardlyAny_cmH2O && last_s_ - step_from_s_ > kLookAtUnrest_s &&
        told_of_set_up_.insert("hardly-any").second) {
        say(News::Kind::caution,
            said(Run::tr("The pressure moves by %1 cmH2O and no more: is the plug in, is the line on the tee, is the "
                         "unit of the instrument the right one?")
                     .arg(shown(most_cmH2O_, 1))));
    }
}

void BenchRun::manual()
{
    if (!open_) {
        open_span(SpanKind::manual, last_s_);
    }
    for (const auto& dwell : watch_.take()) {
        if (dwell.kind != PhaseKind::pause) {
            say(News::Kind::seen, seen_text(dwell));
            seen_.push_back(dwell);
            look_at_hold(dwell);
            progress();
            judge();
            hold_to_judge_ = true;
        }
        if (ending_) {
            return;
        }
    }
    judge_a_hold_at_rest();
    look_while_nothing_is_held();
    if (!ending_ && seen_.size() >= step().asked.size() &&
        (watch_.still_for_s() > kAfterManual_s || watch_.pressing())) {
        finish_manual();
    }
}

/// The first holds show whether the set-up is right, while a hand can still mend it.
void BenchRun::look_at_hold(const Dwell& dwell)
{
    const bool up = dwell.kind == PhaseKind::insufflation;
    const auto asked = step().asked[std::min(seen_.size(), step().asked.size()) - 1];
    if (!is_sign(dwell.kind, asked) && told_of_set_up_.insert("other-sign").second) {
        say(News::Kind::caution,
            said(Run::tr("The other phase came than was asked for: was the lever moved the other way, or does the "
                         "sensing line sit on the wrong port of the instrument?")));
    }
    const double prescribed = up ? preset().insufflation.pressure_cmH2O : preset().exsufflation.pressure_cmH2O;
    if (std::fabs(dwell.level_cmH2O) < kFarTooLow * std::fabs(prescribed) &&
        told_of_set_up_.insert("far-too-low").second) {
        say(News::Kind::caution,
            said(Run::tr("Only about %1 of %2 cmH2O: is the plug in and tight, is the unit of the instrument the right "
                         "one?")
                     .arg(shown_signed(dwell.level_cmH2O, 1), shown_short_signed(prescribed))));
    }
}

/// A hold is seen whole only once the pressure has come to rest behind it: before the next one begins.
void BenchRun::judge_a_hold_at_rest()
{
    if (hold_to_judge_ && watch_.still_for_s() > kAtRestBehindHold_s) {
        hold_to_judge_ = false;
        judge();
    }
}

/// A breath too shallow for a hold of the hand would wait here until the time is up.
void BenchRun::look_while_nothing_is_held()
{
    if (!seen_.empty() || last_s_ - unrest_looked_at_s_ < kLookAtUnrest_s) {
        return;
    }
    unrest_looked_at_s_ = last_s_;
    judge();
}

void BenchRun::finish_manual()
{
    std::size_t matched = 0;
    for (std::size_t i = 0; i < step().asked.size(); ++i) {
        matched += is_sign(seen_[i].kind, step().asked[i]) ? 1u : 0u;
    }
    // All the other way round speaks of the sensor or the unit; some of them, of the hand that toggled.
    if (matched > 0 && matched < step().asked.size() && manual_tries_++ == 0) {
        say(News::Kind::caution,
            said(Run::tr("The phases held are not the ones asked for: once more from the start.")));
        open_->what = SpanKind::other;
        // Nothing is judged in it: a span of another kind has no preset.
        open_->asked.clear();
        open_->preset.clear();
        open_->set.reset();
        close_span(last_s_);
        seen_.clear();
        progress();
        return;
    }
    close_span(last_s_);
    judge();
    if (!ending_) {
        next();
    }
}

/// Of the phase that is asked for.
std::optional<double> BenchRun::held_s() const
{
    const bool asks = seen_.size() < step().asked.size();
    const auto now = watch_.now();
    return asks && now && is_sign(*now, step().asked[seen_.size()]) ? std::optional(last_s_ - watch_.now_from_s())
                                                                    : std::nullopt;
}

std::string BenchRun::asked_now() const
{
    if (seen_.size() >= step().asked.size() || held_s() >= kHold_s) {
        return said(Run::tr("Let go and wait for zero."));
    }
    return said(step().asked[seen_.size()] == verification::Step::insufflation
                    ? Run::tr("Hold insufflation for 3 s, then let go.")
                    : Run::tr("Hold exsufflation for 3 s, then let go."));
}

double BenchRun::stall_s() const
{
    const double rest_s = preset().series ? preset().series->rest_s : 0.0;
    return std::max({3.0 * preset().pause.duration_s, kLeastStall_s, rest_s}) + kStallMargin_s;
}

double BenchRun::last_pause_s() const { return 1.5 * preset().pause.duration_s + 1.0; }

void BenchRun::automatic()
{
    if (resting_) {
        rest();
        return;
    }
    if (!open_ && step().kind == StepKind::ladder) {
        wait_for_the_setting();
        return;
    }
    if (!open_) {
        static_cast<void>(watch_.take());
        if (left_in_ && watch_.now() != left_in_) {
            left_in_.reset();
            step_from_s_ = last_s_;
        }
        if (!left_in_ && watch_.pressing()) {
            open_span(SpanKind::automatic, std::max(step_from_s_, last_s_ - kBeforeOnset_s));
            stalled_ = false;
            progress();
        }
        return;
    }
    for (const auto& dwell : watch_.take()) {
        note_dwell(dwell);
        if (ending_ || resting_) {
            return;
        }
    }
    if (ending_) {
        return;
    }
    if (done_at_s_ > 0.0 && (watch_.pressing() || watch_.still_for_s() > last_pause_s())) {
        next();
    } else {
        note_standstill();
    }
}

void BenchRun::note_dwell(const Dwell& dwell)
{
    progress();
    looked_again_ = false;
    note_runs_at(dwell);
    count_cycles();
    const bool cycle_over = dwell.kind == PhaseKind::exsufflation;
    if (!ending_ && done_at_s_ == 0.0 && cycle_over && duty_.cycled_s() > settings_.duty.cycling_s) {
        begin_rest();
    }
}

void BenchRun::count_cycles()
{
    judge();
    if (ending_) {
        return;
    }
    if (step().kind == StepKind::automatic && cycles_needed() > order_.cycles && !std::exchange(told_unlike_, true)) {
        say(News::Kind::caution,
            said(Run::tr("One cycle is unlike the others: was the hose touched? Hands off; the run "
                         "goes on for more cycles.")));
        done_at_s_ = 0.0;
    }
    tell_cycles();
    // A unit that leaves phases out never comes to enough whole cycles: it has been seen long enough by then.
    const int needed = cycles_needed();
    const bool enough = judged_cycles() >= needed || cycles_seen() >= 2 * (needed + order_.lead_cycles) + 2;
    if (enough && done_at_s_ == 0.0) {
        done_at_s_ = last_s_;
    }
}

/// By the numbers that stand above the trace and in the result; also the first ones, which are not judged.
void BenchRun::tell_cycles()
{
    const int judged = judged_cycles();
    const int told = judged > 0 ? order_.lead_cycles + judged : std::min(cycles_seen(), order_.lead_cycles);
    if (told > reported_cycles_) {
        reported_cycles_ = told;
        say(News::Kind::seen,
            said(Run::tr("cycle %1; judged: %2 of %3").arg(newest_cycle()).arg(judged).arg(cycles_needed())));
    }
}

void BenchRun::note_standstill()
{
    const bool due = duty_.cycled_s() - watch_.still_for_s() > kRestIsNear * settings_.duty.cycling_s;
    const bool over = watch_.still_for_s() > last_pause_s();
    if (over && !std::exchange(looked_again_, over)) {
        // The last exsufflation is measured only now that the level after it is there.
        count_cycles();
    } else if (over && due && done_at_s_ == 0.0) {
        begin_rest();
    } else if (watch_.still_for_s() > stall_s()) {
        close_span(last_s_);
        step_from_s_ = last_s_;
        stalled_ = true;
        say(News::Kind::caution, said(Run::tr("Cycling has stopped after %1 cycles.").arg(cycles_seen())));
    }
}

void BenchRun::begin_rest()
{
    close_span(last_s_);
    step_from_s_ = last_s_;
    resting_ = true;
    progress();
    say(News::Kind::caution,
        said(Run::tr("The unit has run for about %1 s against a closed end: stop it, it rests %2 s.")
                 .arg(shown_short(settings_.duty.cycling_s), shown_short(settings_.duty.rest_s))));
}

void BenchRun::rest()
{
    static_cast<void>(watch_.take());
    const bool rested = watch_.still_for_s() >= DutyMeter::kEnough * settings_.duty.rest_s;
    if (rested) {
        resting_ = false;
        step_from_s_ = last_s_;
        progress();
        say(News::Kind::step, step().sentence);
    }
}

DutyClock BenchRun::duty_now() const
{
    DutyClock duty;
    duty.limit_s = settings_.duty.cycling_s;
    if (resting_) {
        duty.rest_left_s = std::max(0.0, settings_.duty.rest_s - watch_.still_for_s());
    } else {
        duty.cycled_s = duty_.cycled_s();
    }
    return duty;
}

std::string BenchRun::automatic_sentence() const
{
    if (resting_) {
        return said(Run::tr("Stop the unit and let it rest: %1 s.").arg(shown(*duty_now().rest_left_s, 0)));
    }
    if (stalled_) {
        return said(Run::tr("The unit has stopped: start automatic mode again, trigger off."));
    }
    if (!open_) {
        return step().sentence;
    }
    return step().kind == StepKind::ladder
               ? said(Run::tr("It runs at what was dialled in: leave the hose end shut."))
               : said(Run::tr("Automatic, preset '%1': leave the hose end shut.").arg(quoted(step().preset)));
}

void BenchRun::stand_still()
{
    static_cast<void>(watch_.take());
    // Longer than the pause of the preset that ran, so that a pause is not taken for the end.
    const auto before = at_ > 0 ? order_.preset(steps_[at_ - 1].preset) : nullptr;
    const double pause_s = before != nullptr ? before->pause.duration_s : 0.0;
    const double wanted_s = std::max(1.25 * pause_s + 1.0, step().source.seconds);
    if (watch_.still_for_s() > wanted_s) {
        next();
    }
}

} // namespace zeroline::session
