// What a run does with what has been measured so far: stop, ask, or go on for more cycles.

#include "gui/session/bench_run.hpp"

#include "gui/session/run_words.hpp"

#include <algorithm>
#include <iterator>
#include <string_view>
#include <utility>

namespace zeroline::session {

using verification::SpanKind;

namespace {

constexpr std::string_view kOfTheSetUp[] = {
    "unit-mismatch", "swapped-ports", "absolute-sensor",     "plug-off",      "wobble",
    "clipped",       "stuck-reading", "outside-calibration", "not-warmed-up", "room-temperature"};

} // namespace

void BenchRun::judge()
{
    if (!judge_) {
        return;
    }
    // What is not handed back yet speaks against nothing yet.
    auto so_far = log();
    so_far.restored.reset();
    take_result(judge_(so_far));
    if (provisional_->critical) {
        stop_for_what_is_critical();
    } else {
        tell_what_is_wrong_with_the_set_up();
        ask_about_hose_end();
    }
}

/// What a hand can mend now is told now, once, and not only at the end.
void BenchRun::tell_what_is_wrong_with_the_set_up()
{
    for (const auto& finding : result_->findings) {
        const auto* const known = std::find(std::begin(kOfTheSetUp), std::end(kOfTheSetUp), finding.code.toStdString());
        const bool is_note = finding.tone == Tone::none;
        if (known != std::end(kOfTheSetUp) && !is_note && told_of_set_up_.insert(*known).second) {
            say(News::Kind::caution, finding.text.toStdString());
        }
    }
}

/// Once for a set-up, as soon as the pressure moves as if something soft was at the hose end: cycling stops until
/// somebody has looked. What was seen of the span so far stays.
void BenchRun::ask_about_hose_end()
{
    const auto& found = provisional_->findings;
    const bool soft = std::any_of(found.begin(), found.end(), [](const verification::Finding& finding) {
        return finding.code == "soft-hose-end" && !finding.touches.empty();
    });
    if (!soft || asked_hose_end_ || log_.hose_end || ending_) {
        return;
    }
    asks_hose_end_ = asked_hose_end_ = true;
    if (cycles_by_itself(step().kind)) {
        close_span(last_s_);
    }
    say(News::Kind::critical, view().sentence);
}

void BenchRun::answer_about_hose_end(bool nothing_soft)
{
    if (nothing_soft && (log_.run_operator.empty() || !settings_.now)) {
        return;
    }
    asks_hose_end_ = false;
    progress();
    if (nothing_soft) {
        log_.hose_end = {true, log_.run_operator, settings_.now()};
        say(News::Kind::seen, said(Run::tr("nothing soft at the hose end, plug seen: the run goes on")));
    } else {
        say(News::Kind::caution,
            said(Run::tr("Nobody has said that nothing soft is at the hose end: the record will be "
                         "incomplete.")));
    }
    if (cycles_by_itself(step().kind)) {
        step_from_s_ = last_s_;
        left_in_ = watch_.pressing() ? watch_.now() : std::nullopt;
        say(News::Kind::step, step().sentence);
    }
}

void BenchRun::take_result(verification::Assessment assessment)
{
    result_ = live_view(order_, assessment);
    provisional_ = std::move(assessment);
    ++assessments_;
}

void BenchRun::stop_for_what_is_critical()
{
    if (ended_ || ending_) {
        return;
    }
    const bool breath = result_->may_be_a_breath();
    say(News::Kind::critical, breath ? said(Run::tr("Stop. Is someone connected? Take the hose off the person now."))
                                     : said(Run::tr("Critical: keep this unit out of use.")));
    for (const auto& finding : provisional_->findings) {
        // The line above says what a breath asks for; its figures stand in the result.
        if (finding.severity == verification::Severity::critical && finding.code != "breathing") {
            say(News::Kind::caution, finding.text);
        }
    }
    stop(Ending::critical);
}

/// As many again where one cycle is unlike the others: a hand may have touched the hose.
int BenchRun::cycles_needed() const
{
    if (step().kind == StepKind::ladder) {
        return step().source.cycles;
    }
    const bool unlike = provisional_ && std::any_of(provisional_->findings.begin(), provisional_->findings.end(),
                                                    [](const auto& found) { return found.code == "one-cycle-unlike"; });
    return order_.cycles * (unlike ? 2 : 1);
}

/// Whether a cycle counts for the step: a ladder's for the setting that is run now.
bool BenchRun::counts_here(const verification::Cycle& cycle, const std::vector<verification::Span>& spans) const
{
    if (step().kind == StepKind::ladder) {
        return open_ && cycle.span + 1 == spans.size();
    }
    return cycle.preset == step().preset && cycle.span >= first_span_ && cycle.span < spans.size() &&
           spans[cycle.span].what != SpanKind::ladder;
}

int BenchRun::judged_cycles() const
{
    if (!provisional_) {
        return 0;
    }
    const auto spans = log().spans;
    return static_cast<int>(
        std::count_if(provisional_->cycles.begin(), provisional_->cycles.end(),
                      [&](const verification::Cycle& cycle) { return cycle.judged && counts_here(cycle, spans); }));
}

int BenchRun::cycles_seen() const
{
    if (!provisional_) {
        return 0;
    }
    const auto spans = log().spans;
    return static_cast<int>(
        std::count_if(provisional_->cycles.begin(), provisional_->cycles.end(), [&](const verification::Cycle& cycle) {
            return counts_here(cycle, spans) && spans[cycle.span].what != SpanKind::manual;
        }));
}

int BenchRun::newest_cycle() const
{
    return provisional_ && !provisional_->cycles.empty() ? provisional_->cycles.back().index : 0;
}

} // namespace zeroline::session
