// What a run keeps of the trace, and what steps that do their own work are given by it.

#include "gui/session/bench_run.hpp"

#include "analysis/verification/civil_time.hpp"
#include "gui/session/checklist.hpp"
#include "gui/session/gauge_work.hpp"
#include "gui/session/leak_work.hpp"
#include "gui/session/run_words.hpp"
#include "gui/session/strength_work.hpp"

#include <algorithm>
#include <utility>

namespace zeroline::session {

using verification::Span;
using verification::SpanKind;

std::unique_ptr<StepWork> BenchRun::work_of_step()
{
    RunDesk& desk = *this;
    if (step().kind == StepKind::leak) {
        return std::make_unique<LeakWork>(desk, settings_.leak_limit_cmH2O_s);
    }
    if (step().kind == StepKind::strength) {
        return std::make_unique<StrengthWork>(desk, step().orifice.value(), order_.lead_cycles + step().source.cycles,
                                              last_pause_s(), stall_s());
    }
    return step().kind == StepKind::gauge ? gauge_work() : nullptr;
}

std::unique_ptr<StepWork> BenchRun::gauge_work()
{
    const auto& gauge = settings_.second_gauge;
    if (!gauge || !settings_.now || !zero_.last_stretch()) {
        return nullptr;
    }
    const auto& source = step().source;
    auto check = check_with(*gauge, verification::day_of(settings_.now()), source.every_days);
    check.done_by = log_.run_operator;
    check.limit_cmH2O = source.limit_cmH2O;
    check.limit_basis = source.basis;
    check.simulated = log_.origin == verification::Origin::simulated;
    RunDesk& desk = *this;
    return std::make_unique<GaugeWork>(
        desk, GaugeCheck(std::move(check), gauge->unit, source.points_cmH2O, *zero_.last_stretch()));
}

std::string BenchRun::why_no_gauge() const
{
    return said(
        settings_.second_gauge
            ? Run::tr("Without a zero reading the instrument is not checked against the second gauge: leave it "
                      "out, with the reason.")
            : Run::tr("The bench file names no second gauge, so the instrument is not checked now: leave it out, "
                      "with the reason."));
}

/// What a span says of the unit: the preset of the step, what was dialled in or found, what it is fed from.
Span BenchRun::placed(Span span) const
{
    if (!log_.spans.empty()) {
        span.from_s = std::max(span.from_s, log_.spans.back().to_s);
    }
    if (!verification::has_preset(span.what)) {
        return span;
    }
    span.preset = step().preset;
    const auto& found = settings_.log.settings_found;
    if (step().dialled) {
        span.set = step().dialled;
    } else if (found && found->contains(span.preset)) {
        span.set = found->at(span.preset);
    }
    if (span.what == SpanKind::automatic) {
        span.power = step().source.power;
    }
    return span;
}

void BenchRun::open_span(SpanKind what, double from_s)
{
    Span span;
    span.what = what;
    span.from_s = from_s;
    span.to_s = last_s_;
    if (what == SpanKind::manual) {
        span.asked = step().asked;
    }
    open_ = placed(std::move(span));
}

void BenchRun::close_span(double to_s)
{
    if (open_) {
        open_->to_s = std::max(to_s, open_->from_s);
        if (open_->to_s > open_->from_s) {
            log_.spans.push_back(std::move(*open_));
        }
        open_.reset();
    }
}

void BenchRun::keep(verification::Span span) { log_.spans.push_back(placed(std::move(span))); }

void BenchRun::keep(const verification::InstrumentCheck& check)
{
    if (const auto trouble = settings_.keep_check ? settings_.keep_check(check) : std::string(); !trouble.empty()) {
        say(News::Kind::caution, trouble);
    }
    verification::InstrumentChecks alone;
    alone.checks = {check};
    const auto item = *verification::item_of(alone, check.on, check.simulated);
    const bool in_order = item.outcome == verification::ChecklistItem::Outcome::ok;
    say(in_order ? News::Kind::seen : News::Kind::caution,
        (in_order ? said(Run::tr("the instrument is in order: %1").arg(quoted(item.remark)))
                  : said(Run::tr("The instrument is not in order, the verdict will be incomplete: %1")
                             .arg(quoted(item.remark)))));
    note_item(log_.checklist, item);
    note_item(answers_, item);
}

} // namespace zeroline::session
