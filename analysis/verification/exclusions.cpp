#include "analysis/verification/exclusions.hpp"

#include "analysis/signal/statistics.hpp"
#include "analysis/verification/findings/sensor_signs.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

using signal::PhaseKind;

// A phase that ends this much early, with its partner or the length of its pause giving the plug away, did not end by a
// timer: timers of units in use are within 20 % (docs/diagnosis.md).
constexpr double kEarly = 0.8, kEarlyWithPartner = 0.7;
constexpr double kMadeUp = 0.15; // of what the phase lost: how well the pause makes up for it
constexpr double kJustBefore_s = 1e-6;

std::optional<double> usual_duration_s(const MeasuredSpan& span, PhaseKind kind)
{
    std::vector<double> durations;
    for (const auto& phase : span.phases)
        if (phase.kind == kind && !phase.cut())
            if (const auto duration = phase.duration_s())
                durations.push_back(*duration);
    return signal::median(std::move(durations));
}

/// A span with the usual durations of its whole phases, taken once.
struct UsualSpan {
    explicit UsualSpan(const MeasuredSpan& measured)
        : span(measured), insufflation_s(usual_duration_s(measured, PhaseKind::insufflation)),
          exsufflation_s(usual_duration_s(measured, PhaseKind::exsufflation)),
          pause_s(usual_duration_s(measured, PhaseKind::pause))
    {
    }

    const MeasuredSpan& span;
    std::optional<double> insufflation_s, exsufflation_s, pause_s;
};

/// The exsufflation that this insufflation should have had did not build up.
bool partner_lost(const UsualSpan& usual, std::size_t i)
{
    const auto& span = usual.span;
    const bool has_partner =
        span.prescribed->exsufflation.duration_s > 0.0 && (i == 0 || span.phases[i - 1].kind == PhaseKind::pause);
    const auto& pause = span.phases[i + 1];
    const double pause_s = pause.duration_s().value_or(span.span.to_s - pause.start_s());
    return has_partner && (!usual.pause_s || pause_s > *usual.pause_s);
}

/// The pause after it came as much too early as the phase was too short: the unit's timers went on as ever.
bool pause_made_up(const UsualSpan& usual, std::size_t i, double lost_s)
{
    const auto pause_s = usual.span.phases[i + 1].duration_s();
    return usual.pause_s && pause_s && std::abs(*pause_s - *usual.pause_s - lost_s) < kMadeUp * lost_s;
}

/// What was not seen of a phase, or of the pause after it, may be what makes it look short.
bool seen_whole(const UsualSpan& usual, std::size_t i, const std::vector<Hole>& holes)
{
    const auto& pause = usual.span.phases[i + 1];
    const double from_s = usual.span.phases[i].start_s();
    const double to_s = pause.leaving ? pause.leaving->onset.time_s : usual.span.span.to_s;
    return std::none_of(holes.begin(), holes.end(),
                        [&](const Hole& hole) { return hole.matters && hole.from_s < to_s && hole.to_s > from_s; });
}

/// When the level of phase `i` collapsed before its time; none where it did not.
std::optional<double> collapse_s(const UsualSpan& usual, std::size_t i)
{
    const auto& span = usual.span;
    const auto& phase = span.phases[i];
    if (phase.kind == PhaseKind::pause || i + 1 >= span.phases.size() || span.phases[i + 1].kind != PhaseKind::pause)
        return std::nullopt;
    const auto usual_s = phase.kind == PhaseKind::insufflation ? usual.insufflation_s : usual.exsufflation_s;
    const auto duration_s = phase.duration_s();
    const bool leads = phase.kind == PhaseKind::insufflation && !span.reversed;
    if (!usual_s || !duration_s || *duration_s > (leads ? kEarly : kEarlyWithPartner) * *usual_s)
        return std::nullopt;
    if (!(leads ? partner_lost(usual, i) : pause_made_up(usual, i, *usual_s - *duration_s)))
        return std::nullopt;
    return phase.leaving ? phase.leaving->onset.time_s : span.phases[i + 1].start_s();
}

double next_whole_cycle_s(const MeasuredTrace& measured_trace, const MeasuredSpan& span, double after_s)
{
    for (const auto& cycle : measured_trace.cycles)
        if (cycle.span == span.index && cycle.start_s > after_s && cycle.insufflation && cycle.exsufflation)
            return cycle.start_s - kJustBefore_s;
    return span.span.to_s;
}

std::vector<Exclusion> plug_offs(const MeasuredTrace& measured_trace)
{
    std::vector<Exclusion> all;
    const auto unseen = holes(measured_trace);
    for (const auto& span : measured_trace.spans) {
        if (span.span.what == SpanKind::manual)
            continue;
        const UsualSpan usual(span);
        for (std::size_t i = 0; i < span.phases.size(); ++i)
            if (const auto at = collapse_s(usual, i); at && seen_whole(usual, i, unseen))
                all.push_back({"plug-off", *at, next_whole_cycle_s(measured_trace, span, *at)});
    }
    return all;
}

void add_runs(std::vector<Exclusion>& all, const std::string& code, const std::vector<ConstantRun>& runs)
{
    for (const auto& run : runs)
        all.push_back({code, run.from_s, run.to_s});
}

void add_overranges(std::vector<Exclusion>& all, const trace::Trace& trace, double interval_s)
{
    for (const auto& event : trace.events)
        if (event.kind == trace::NoteKind::overrange)
            all.push_back({"clipped", event.time_s - interval_s, event.time_s + interval_s});
}

} // namespace

std::vector<Exclusion> exclusions(const MeasuredTrace& measured_trace)
{
    std::vector<Exclusion> all;
    for (const auto& hole : holes(measured_trace))
        if (hole.matters)
            all.push_back({"gap", hole.from_s, hole.to_s});
    add_runs(all, "clipped", clipped_runs(measured_trace));
    add_overranges(all, *measured_trace.evidence->trace, median_interval_s(measured_trace));
    add_runs(all, "stuck-reading", stuck_runs(measured_trace));
    const auto off = plug_offs(measured_trace);
    all.insert(all.end(), off.begin(), off.end());
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.from_s < b.from_s; });
    return all;
}

} // namespace zeroline::verification
