// A ladder: settings dialled in one after another, each recognised by what the pressure does before it counts.

#include "gui/session/bench_run.hpp"

#include "gui/session/run_words.hpp"
#include "gui/session/shown_number.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace zeroline::session {

using signal::PhaseKind;
using verification::SpanKind;

namespace {

constexpr double kBeforeFirst_s = 1.0; ///< the span begins so long before the first phase is recognised, at most
constexpr double kShareOfWay = 0.5;    ///< of a change that was asked for: less, and it is not the new setting
constexpr double kAstray = 0.25;       ///< of a value: what nobody asked to change changes by less
constexpr double kLeastPressure_cmH2O = 2.4, kLeastTime_s = 0.2;
constexpr int kCyclesForSure = 2;   ///< the first after a start may be low or long
constexpr int kCyclesUnstopped = 6; ///< more may go by before a person has read, stopped the unit and dialled

/// A unit may be off by any error that it has at every setting: it is told by the way that it went since the setting
/// before, and only where that is not known by the value itself.
bool follows(double now, const std::optional<double>& then, double asked, double before, double least)
{
    const double way = asked - before;
    if (!then) {
        return std::fabs(now - asked) < std::max(least, kAstray * std::fabs(asked));
    }
    if (std::fabs(way) < least) {
        return std::fabs(now - *then - way) < std::max(least, 0.1 * std::fabs(asked));
    }
    const double share = (now - *then) / way;
    return share > kShareOfWay && share < 2.0 - kShareOfWay;
}

std::optional<double> level_of(const std::optional<Dwell>& dwell)
{
    return dwell ? std::optional(dwell->level_cmH2O) : std::nullopt;
}

std::optional<double> length_of(const std::optional<Dwell>& dwell)
{
    return dwell ? std::optional(dwell->to_s - dwell->from_s) : std::nullopt;
}

bool follows(const Dwell& now, const std::optional<Dwell>& then, const verification::PhaseSetting& asked,
             const verification::PhaseSetting& before)
{
    return follows(now.level_cmH2O, level_of(then), asked.pressure_cmH2O, before.pressure_cmH2O,
                   kLeastPressure_cmH2O) &&
           follows(*length_of(now), length_of(then), asked.duration_s, before.duration_s, kLeastTime_s);
}

} // namespace

void BenchRun::begin_setting()
{
    other_settings_seen_ = -kCyclesUnstopped;
    if (step().kind == StepKind::ladder) {
        ran_at_ = runs_at_.whole() ? runs_at_ : ran_at_;
        runs_at_ = {};
    }
}

void BenchRun::note_runs_at(const Dwell& dwell)
{
    if (dwell.kind == PhaseKind::insufflation) {
        runs_at_.insufflation = dwell;
    } else if (dwell.kind == PhaseKind::exsufflation) {
        runs_at_.exsufflation = dwell;
    }
}

bool BenchRun::runs_as_dialled() const
{
    const auto asked = with(*step().dialled, preset());
    const auto before = ran_set_ ? with(*ran_set_, preset()) : preset();
    return follows(*runs_at_.insufflation, ran_at_.insufflation, asked.insufflation, before.insufflation) &&
           follows(*runs_at_.exsufflation, ran_at_.exsufflation, asked.exsufflation, before.exsufflation);
}

void BenchRun::wait_for_the_setting()
{
    if (watch_.still_for_s() > last_pause_s()) {
        other_settings_seen_ = std::max(other_settings_seen_, 0); // it was stopped
    }
    for (const auto& dwell : watch_.take()) {
        progress();
        note_runs_at(dwell);
        const bool cycle =
            dwell.kind == PhaseKind::exsufflation && runs_at_.whole() && runs_at_.insufflation->to_s <= dwell.from_s;
        if (!cycle) {
            continue;
        }
        if (runs_as_dialled()) {
            say(News::Kind::seen, said(Run::tr("the unit runs at it")));
            open_ladder();
            return;
        }
        if (++other_settings_seen_ == kCyclesForSure) {
            tell_what_it_runs_at();
        }
    }
}

bool BenchRun::runs_at_something_else() const
{
    return step().kind == StepKind::ladder && !open_ && !resting_ && other_settings_seen_ >= kCyclesForSure;
}

void BenchRun::tell_what_it_runs_at()
{
    say(News::Kind::caution,
        said(Run::tr("It runs at about %1 / %2 cmH2O, %3 / %4 s: that is not what was asked for. Dial it in; or go on "
                     "where it does stand so on the unit.")
                 .arg(shown_signed(runs_at_.insufflation->level_cmH2O, 1),
                      shown_signed(runs_at_.exsufflation->level_cmH2O, 1), shown(*length_of(runs_at_.insufflation), 1),
                      shown(*length_of(runs_at_.exsufflation), 1))));
}

/// The cycle that it was recognised by is the span's first.
void BenchRun::open_ladder()
{
    const double before_s = std::min(kBeforeFirst_s, 0.5 * preset().pause.duration_s);
    open_span(SpanKind::ladder, std::max(step_from_s_, runs_at_.insufflation->from_s - before_s));
    ran_set_ = step().dialled;
    stalled_ = false;
    progress();
}

} // namespace zeroline::session
