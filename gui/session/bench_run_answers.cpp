// What a person answers in a run, and what is left out of it.

#include "gui/session/bench_run.hpp"

#include "gui/session/checklist.hpp"
#include "gui/session/run_words.hpp"

#include <algorithm>
#include <utility>

namespace zeroline::session {

using verification::ChecklistItem;
using verification::SpanKind;

namespace {

constexpr double kUsualNoise_cmH2O = 0.05;

} // namespace

bool BenchRun::answered(const RunStep& step) const
{
    if (step.kind == StepKind::gauge) {
        // One that is overdue, or was not in order, is asked for again.
        return std::any_of(log_.checklist.begin(), log_.checklist.end(), [](const ChecklistItem& one) {
            return one.item == verification::kInstrumentItem && one.outcome == ChecklistItem::Outcome::ok;
        });
    }
    return asks(step.kind) && has_item(log_.checklist, step.source.item);
}

void BenchRun::answer(ChecklistItem::Outcome outcome, const std::string& remark)
{
    if (!ended_ && step().kind == StepKind::check) {
        note_answer({step().source.item, outcome, remark});
    }
}

void BenchRun::answer(double value, double last_digit)
{
    if (!ended_ && step().kind == StepKind::value) {
        note_answer(item_of(step().source, value));
    } else if (!ended_ && work_ && work_->answer(value, last_digit)) {
        next();
    }
}

void BenchRun::note_answer(ChecklistItem item)
{
    const auto told = item.item + (item.remark.empty() ? std::string() : ": " + item.remark);
    if (item.outcome == ChecklistItem::Outcome::not_ok) {
        say(News::Kind::caution, said(Run::tr("Not in order: %1").arg(QString::fromStdString(told))));
    } else if (step().kind == StepKind::value) {
        say(News::Kind::seen, told);
    }
    note_item(log_.checklist, item);
    note_item(answers_, std::move(item));
    next();
}

/// What a procedure asks to be done leaves its trace, in the words of the procedure.
void BenchRun::note_done(const std::string& say)
{
    if (!say.empty()) {
        const ChecklistItem item{say, ChecklistItem::Outcome::ok, "confirmed"};
        note_item(log_.checklist, item);
        note_item(answers_, item);
    }
}

const RunStep* BenchRun::value_step(const std::string& item) const
{
    const auto found = std::find_if(steps_.begin(), steps_.end(), [&](const RunStep& one) {
        return one.kind == StepKind::value && one.source.item == item;
    });
    if (found == steps_.end()) {
        return nullptr;
    }
    const auto is_measured = [&](const ChecklistItem& one) {
        return one.item == item && one.outcome != ChecklistItem::Outcome::not_applicable;
    };
    return std::any_of(answers_.begin(), answers_.end(), is_measured) ? &*found : nullptr;
}

bool BenchRun::correct(const std::string& item, double value)
{
    const auto* const asked = value_step(item);
    if (ended_ || asked == nullptr) {
        return false;
    }
    const auto before =
        std::find_if(answers_.begin(), answers_.end(), [&](const ChecklistItem& one) { return one.item == item; });
    auto anew = item_of(asked->source, value);
    anew.remark += "; typed before: " + before->remark;
    note_item(log_.checklist, anew);
    note_item(answers_, std::move(anew));
    return true;
}

/// What the last check said is not talked away: overdue or not in order, it stays so.
void BenchRun::decline_gauge(const std::string& reason)
{
    const auto before = std::find_if(log_.checklist.begin(), log_.checklist.end(), [](const ChecklistItem& one) {
        return one.item == verification::kInstrumentItem;
    });
    ChecklistItem item{verification::kInstrumentItem, ChecklistItem::Outcome::not_applicable, "not done: " + reason};
    if (before != log_.checklist.end()) {
        item.outcome = before->outcome;
        item.remark += "; " + before->remark;
    }
    note_answer(std::move(item));
}

std::optional<SpanKind> BenchRun::can_be_skipped() const
{
    if (ended_ || asks_hose_end_) {
        return std::nullopt;
    }
    switch (step().kind) {
    case StepKind::zero_before:
        return SpanKind::zero_before;
    case StepKind::manual:
        return SpanKind::manual;
    case StepKind::automatic:
        return SpanKind::automatic;
    case StepKind::ladder:
        return SpanKind::ladder;
    case StepKind::leak:
        return SpanKind::leak_test;
    case StepKind::strength:
        return SpanKind::strength;
    case StepKind::zero_after:
        return SpanKind::zero_after;
    // What keeps people safe, and what the next step stands on, is never left out.
    case StepKind::confirm:
    case StepKind::check:
    case StepKind::value:
    case StepKind::gauge:
    case StepKind::plug:
    case StepKind::stand_still:
    case StepKind::hand_back:
        break;
    }
    return std::nullopt;
}

void BenchRun::skip(const std::string& reason)
{
    if (!ended_ && step().kind == StepKind::gauge && !reason.empty()) {
        decline_gauge(reason);
        return;
    }
    if (!ended_ && asks(step().kind) && !reason.empty()) {
        note_answer({step().source.item, ChecklistItem::Outcome::not_applicable, reason});
        return;
    }
    const auto what = can_be_skipped();
    if (!what || reason.empty()) {
        return;
    }
    if (*what == SpanKind::zero_before) {
        // The phases are recognised against something all the same; what is recorded knows no zero.
        const auto about = zero_.last_stretch().value_or(QuietStretch{0.0, 0.0, 0.0, kUsualNoise_cmH2O});
        watch_.begin(about.mean_cmH2O, about.noise_cmH2O);
    }
    log_.skipped.push_back({*what, step().preset, reason});
    say(News::Kind::caution, said(Run::tr("Skipped: %1").arg(QString::fromStdString(reason))));
    const auto held = watch_.begun() && watch_.pressing() ? watch_.now() : std::nullopt;
    leave_undone();
    left_in_ = held;
}

void BenchRun::set_checklist(std::vector<ChecklistItem> checklist)
{
    log_.checklist = std::move(checklist);
    for (const auto& answer : answers_) {
        // What was measured is not talked away: only another value takes its place.
        if (!has_item(log_.checklist, answer.item) || value_step(answer.item) != nullptr) {
            note_item(log_.checklist, answer);
        }
    }
}

void BenchRun::set_environment(const verification::Environment& air)
{
    log_.environment = air;
    log_.environment->instrument_on_s = air.instrument_on_s.value_or(0.0);
}

} // namespace zeroline::session
