#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/signal/shape.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace zeroline::verification {

namespace {

constexpr double kSlowShare = 0.25, kSlow_s = 0.35;               // full flow
constexpr double kSlowShareReduced = 0.55, kSlowReduced_s = 0.85; // reduced flow ramps by design
constexpr double kIrregular_s = 0.015, kIrregularShare = 0.10;
constexpr std::size_t kCyclesOfAScatter = 3;
constexpr double kOvershootNote = 10.0, kOvershootCaution = 20.0; // percent; healthy units reach 15
constexpr double kControlRinging_cmH2O = 2.0;                     // less is the overshoot of a healthy unit
constexpr double kRinging_cmH2O = 0.5;
constexpr double kRingingNoises = 4.0;
constexpr double kRingingShare = 0.5;
constexpr double kRingingAgrees = 0.15;  // frequencies of most transitions, about their median
constexpr double kControlRing_hz = 25.0; // slower is the unit's control, faster is hose and line
constexpr double kRateForFastRings_hz = 245.0;
constexpr double kRingingWindow_s = 0.4;
constexpr double kControlRingLasts = 0.33,
                 kFastRingLasts = 1.0; // periods until it has fallen to 1/e; an edge's tail is gone sooner
constexpr double kBendLag_s = 0.004;
constexpr double kInsideBand = 1.1;
constexpr double kStillMoving = 0.05;            // of the step, from the third quarter of a pause to the last
constexpr double kSlowsDown = 1.2;               // from the second to the third it moved this much more
constexpr double kFromMiddle = 0.5;              // of the 10-90 % time: the edge itself is over
constexpr double kPeriodsOfARing = 1.5;          // fewer are an overshoot
constexpr std::size_t kTransitionsLookedAt = 12; // of each kind: enough to see, and no hour of trace costs more

std::vector<Value> edge_times(const Group& group, signal::PhaseKind kind)
{
    std::vector<Value> times;
    for (const auto* cycle : group.whole)
        if (const auto& phase = phase_of(*cycle, kind); phase && phase->entering && phase->entering->time_10_90_s)
            times.push_back({cycle, *phase->entering->time_10_90_s});
    return times;
}

double mean_between(const FindingBasis& basis, const signal::Phase& pause, double from, double to)
{
    const double start_s = pause.start_s(), length_s = pause.leaving->onset.time_s - start_s;
    const auto samples = basis.samples_between(start_s + from * length_s, start_s + to * length_s);
    return signal::mean(samples.pressure_cmH2O).value_or(0.0);
}

/// The pressure of a pause still comes nearer at its end, slower and slower: what moves ever faster there is the next
/// edge.
bool still_settling(const FindingBasis& basis, const signal::Phase& pause)
{
    if (!pause.leaving)
        return false;
    const double second = mean_between(basis, pause, 0.25, 0.5), third = mean_between(basis, pause, 0.5, 0.75),
                 last = mean_between(basis, pause, 0.75, 1.0);
    const double step = std::abs(pause.entering->to_cmH2O - pause.entering->from_cmH2O);
    const bool onwards = (third - second) * (last - third) > 0.0;
    return onwards && std::abs(last - third) > kStillMoving * step &&
           std::abs(third - second) > kSlowsDown * std::abs(last - third);
}

/// A level that falls again was reached, and droops.
bool still_growing(const FindingBasis& basis, const signal::Phase& phase)
{
    return phase.kind == kPause ? still_settling(basis, phase) : phase.droop_cmH2O_per_s.value_or(0.0) < 0.0;
}

std::vector<const Cycle*> unreached(const FindingBasis& basis, const Group& group, signal::PhaseKind kind)
{
    std::vector<const Cycle*> which;
    for (const auto* cycle : group.judged)
        if (const auto& phase = phase_of(*cycle, kind);
            phase && phase->entering && !phase->entering->reached && still_growing(basis, *phase))
            which.push_back(cycle);
    return which;
}

double slow_from_s(const Group& group, signal::PhaseKind kind)
{
    const double phase_s = setting_of(group.set, kind).duration_s;
    const bool reduced = group.set.flow == Flow::reduced;
    return reduced ? std::max(kSlowShareReduced * phase_s, kSlowReduced_s) : std::max(kSlowShare * phase_s, kSlow_s);
}

Findings slow_edge(const FindingBasis& basis, const std::string& code, const std::string& edge, signal::PhaseKind kind,
                   const std::string& attempt)
{
    Findings all;
    for (const auto& group : basis.groups) {
        const auto times = edge_times(group, kind);
        const auto late = unreached(basis, group, kind);
        const auto time = median_of(times);
        const bool slow = time && *time > slow_from_s(group, kind);
        if (!slow && 2 * late.size() <= group.judged.size())
            continue;
        auto found = finding(basis, group, code, Severity::caution,
                             {"a slow " + edge,
                              slow ? "it takes " + in_words(*time, 3) + " s from 10 % to 90 % and " +
                                         in_words(slow_from_s(group, kind), 3) + " s is the most that is usual"
                                   : "the level after it is never reached",
                              attempt});
        if (time)
            found.figures["time_10_90_s"] = *time;
        found.figures["limit_s"] = slow_from_s(group, kind);
        name_cycles(found, late);
        name_cycles(found, times);
        all.push_back(found);
    }
    return all;
}

/// Scatter of the swing times without what their own uncertainty adds.
std::optional<double> swing_scatter_s(const Group& group)
{
    const auto times = edge_times(group, group.spans.front()->reversed ? kInsufflation : kExsufflation);
    if (times.size() < kCyclesOfAScatter)
        return std::nullopt;
    double noise = 0.0;
    for (const auto& time : times) {
        const double u = phase_of(*time.cycle, group.spans.front()->reversed ? kInsufflation : kExsufflation)
                             ->entering->time_10_90_u_s;
        noise += u * u / static_cast<double>(times.size());
    }
    const double deviation = *signal::standard_deviation(numbers(times));
    return std::sqrt(std::max(0.0, deviation * deviation - noise));
}

std::vector<Value> overshoots(const Group& group, signal::PhaseKind kind)
{
    std::vector<Value> all;
    for (const auto* cycle : group.judged)
        if (const auto& phase = phase_of(*cycle, kind); phase && phase->overshoot_percent)
            all.push_back({cycle, *phase->overshoot_percent});
    return all;
}

struct Band {
    double low_hz, high_hz;
};

/// Second differences over about 4 ms: the tail of an edge all but goes, a fast ring stays, at a gain that is known.
struct Bends {
    std::vector<double> time_s, bend;
    double lag_s = 0.0;

    explicit Bends(signal::Samples of)
    {
        const double interval_s =
            of.size() > 1 ? (of.time_s.back() - of.time_s.front()) / static_cast<double>(of.size() - 1) : 1.0;
        const auto lag = static_cast<std::size_t>(std::max(1.0, std::round(kBendLag_s / interval_s)));
        lag_s = static_cast<double>(lag) * interval_s;
        for (std::size_t i = lag; i + lag < of.size(); ++i) {
            time_s.push_back(of.time_s[i]);
            bend.push_back(of.pressure_cmH2O[i - lag] - 2.0 * of.pressure_cmH2O[i] + of.pressure_cmH2O[i + lag]);
        }
    }
    [[nodiscard]] double gain(double frequency_hz) const
    {
        return 2.0 * (1.0 - std::cos(2.0 * std::numbers::pi * frequency_hz * lag_s));
    }
};

std::optional<signal::Ringing> ring_of(signal::Samples samples, Band band)
{
    if (band.high_hz <= kControlRing_hz)
        return signal::ringing(samples, band.low_hz, band.high_hz);
    const Bends bends(samples);
    auto ring = signal::ringing({bends.time_s, bends.bend}, band.low_hz, band.high_hz);
    if (ring)
        ring->amplitude_cmH2O /= bends.gain(ring->frequency_hz);
    return ring;
}

/// A ring, and not the tail of an edge: it lasts, and its frequency is not just the end of what was looked through.
bool is_ring(const FindingBasis& basis, const signal::Ringing& ring, Band band, double slowest_hz)
{
    const bool fast = band.high_hz > kControlRing_hz;
    const double smallest_cmH2O =
        std::max(fast ? kRinging_cmH2O : kControlRinging_cmH2O, kRingingNoises * basis.measured_trace.noise_cmH2O);
    return ring.share > kRingingShare && ring.amplitude_cmH2O > smallest_cmH2O &&
           ring.time_constant_s * ring.frequency_hz > (fast ? kFastRingLasts : kControlRingLasts) &&
           ring.frequency_hz > kInsideBand * slowest_hz && ring.frequency_hz * kInsideBand < band.high_hz;
}

/// What goes on to the end of a phase is an oscillation and no ring.
bool oscillates(const signal::Phase& phase) { return phase.oscillation && phase.oscillation->amplitude_cmH2O > 0.0; }

/// Transitions into one kind of phase that a ring could follow, from the first of its cycles.
std::vector<const signal::Phase*> transitions_into(const Group& group, signal::PhaseKind kind)
{
    std::vector<const signal::Phase*> phases;
    for (const auto* cycle : group.whole) {
        const auto& phase = phase_of(*cycle, kind);
        if (phases.size() < kTransitionsLookedAt && phase && phase->entering && phase->entering->time_10_90_s &&
            !oscillates(*phase))
            phases.push_back(&*phase);
    }
    return phases;
}

std::optional<signal::Ringing> ring_after(const FindingBasis& basis, const signal::Phase& phase, Band band)
{
    const double from_s = phase.entering->mid.time_s + kFromMiddle * *phase.entering->time_10_90_s;
    const double to_s =
        std::min(phase.leaving ? phase.leaving->onset.time_s : from_s + kRingingWindow_s, from_s + kRingingWindow_s);
    const double slowest_hz = std::max(band.low_hz, kPeriodsOfARing / (to_s - from_s));
    if (slowest_hz >= band.high_hz)
        return std::nullopt;
    const auto ring = ring_of(basis.samples_between(from_s, to_s), {slowest_hz, band.high_hz});
    return ring && is_ring(basis, *ring, band, slowest_hz) ? ring : std::nullopt;
}

/// Rings after the transitions; none where too few of them can show one to be most.
std::vector<signal::Ringing> rings_after(const FindingBasis& basis, const std::vector<const signal::Phase*>& phases,
                                         Band band)
{
    std::vector<signal::Ringing> rings;
    for (std::size_t i = 0; i < phases.size() && 2 * (rings.size() + phases.size() - i) > phases.size(); ++i)
        if (const auto ring = ring_after(basis, *phases[i], band))
            rings.push_back(*ring);
    return rings;
}

std::optional<signal::Ringing> common_ring(const std::vector<signal::Ringing>& rings, std::size_t looked_at)
{
    std::vector<double> frequencies, amplitudes;
    for (const auto& ring : rings) {
        frequencies.push_back(ring.frequency_hz);
        amplitudes.push_back(ring.amplitude_cmH2O);
    }
    const auto frequency = signal::median(frequencies), amplitude = signal::median(amplitudes);
    const auto agree = std::count_if(frequencies.begin(), frequencies.end(),
                                     [&](double f) { return std::abs(f / *frequency - 1.0) < kRingingAgrees; });
    if (!frequency || 2 * static_cast<std::size_t>(agree) <= looked_at)
        return std::nullopt;
    signal::Ringing common;
    common.frequency_hz = *frequency;
    common.amplitude_cmH2O = *amplitude;
    return common;
}

/// The largest ring that most transitions into one kind of phase share.
std::optional<signal::Ringing> ring_in(const FindingBasis& basis, const Group& group, Band band)
{
    std::optional<signal::Ringing> largest;
    for (const auto kind : {kInsufflation, kExsufflation, kPause}) {
        const auto phases = transitions_into(group, kind);
        const auto common = common_ring(rings_after(basis, phases, band), phases.size());
        if (common && (!largest || common->amplitude_cmH2O > largest->amplitude_cmH2O))
            largest = common;
    }
    return largest;
}

std::string cause_of_ring(double frequency_hz)
{
    if (frequency_hz <= kControlRing_hz)
        return "nothing while it is small: the unit's control settles so; a much larger one than at the last visit is "
               "worth a look";
    if (frequency_hz < 60.0)
        return "a shorter hose if times matter: a hose closed at its end rings near 48 Hz for 1.8 m";
    return "a shorter sensing line: 1 m of thin tube rings near 68 Hz";
}

} // namespace

Findings slow_rise(const FindingBasis& basis)
{
    return slow_edge(basis, "slow-rise", "rise", kInsufflation,
                     "the flow setting of the unit; with swing and release slow too, the sensing line and the filter");
}

Findings slow_swing(const FindingBasis& basis)
{
    return slow_edge(
        basis, "slow-swing", "swing", kExsufflation,
        "the flow setting and the valve of the unit; with rise and release slow too, the sensing line and the filter");
}

Findings slow_release(const FindingBasis& basis)
{
    return slow_edge(basis, "slow-release", "release", kPause,
                     "the outlet valve of the unit; with rise and swing slow too, the sensing line and the filter");
}

Findings irregular_swing(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups) {
        const auto times = edge_times(group, group.spans.front()->reversed ? kInsufflation : kExsufflation);
        const auto scatter = swing_scatter_s(group);
        if (!scatter || *scatter <= kIrregular_s || *scatter <= kIrregularShare * *mean_of(times))
            continue;
        all.push_back(finding(basis, group, "irregular-swing", Severity::caution,
                              {"a valve that sticks",
                               "the swing time scatters by " + in_words(1e3 * *scatter, 0) + " ms about " +
                                   in_words(1e3 * *mean_of(times), 0) + " ms from cycle to cycle",
                               "the run again with the unit warm; then the valve"},
                              {{"deviation_s", *scatter}, {"mean_s", *mean_of(times)}}, times));
    }
    return all;
}

Findings overshoot(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups)
        for (const auto kind : {kInsufflation, kExsufflation}) {
            const auto seen = overshoots(group, kind);
            const auto percent = median_of(seen);
            if (!percent || *percent < kOvershootNote)
                continue;
            all.push_back(finding(
                basis, group, "overshoot", *percent >= kOvershootCaution ? Severity::caution : Severity::note,
                {"a unit that overshoots",
                 word_of(kind) + " peaks " + in_words(*percent, 0) + " % of the step beyond its plateau",
                 "a softer flow setting, and whether the peak is within what is prescribed; at a blocked outlet "
                 "peaks are higher than on a person"},
                {{"percent", *percent}}, seen));
        }
    return all;
}

Findings ringing(const FindingBasis& basis)
{
    Findings all;
    const bool fast = basis.measured_trace.evidence->trace->sampling.rate_hz >= kRateForFastRings_hz;
    const std::vector<Band> bands = fast ? std::vector<Band>{{2.0, kControlRing_hz}, {kControlRing_hz, 125.0}}
                                         : std::vector<Band>{{2.0, kControlRing_hz}};
    for (const auto& group : basis.groups)
        for (const auto band : bands) {
            const auto common = ring_in(basis, group, band);
            if (!common)
                continue;
            all.push_back(
                finding(basis, group, "ringing", Severity::note,
                        {"a column of air or a control that rings",
                         "after most transitions the pressure swings at " + in_words(common->frequency_hz, 1) +
                             " Hz with " + in_words(common->amplitude_cmH2O, 1) + " cmH2O at first",
                         cause_of_ring(common->frequency_hz)},
                        {{"frequency_hz", common->frequency_hz}, {"amplitude_cmH2O", common->amplitude_cmH2O}}));
        }
    return all;
}

} // namespace zeroline::verification
