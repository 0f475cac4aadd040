#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/signal/statistics.hpp"
#include "analysis/verification/findings/phase_shapes.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace zeroline::verification {

namespace {

// Thresholds from runs of differential equations with a plug and with a lung at the hose end (docs/diagnosis.md): with
// a plug no swing or release took longer than 0.32 s to within 3 % of its step, with a lung of 20 mL/cmH2O none less
// than 0.45 s.
constexpr double kSettled = 0.03;     // of the step
constexpr double kLate_s = 0.4;       // from the onset until settled
constexpr double kBent = 1.6;         // 50 to 90 % over 10 to 50 %: a ramp has 1, filling 2.7
constexpr double kTail = 0.45;        // 90 to 97 % over 50 to 90 %: a ramp 0.2, filling 0.75
constexpr double kStillMoving = 0.02; // of the step, in the last fifth of the phase
constexpr double kSmallestStep_cmH2O = 3.0;
constexpr double kNoises = 2.0;      // of one reading; the median of five has half of it
constexpr double kMostSettled = 0.1; // of the step: a smaller one is lost in the noise
constexpr double kShortest_s = 0.4;
constexpr double kStays_s = 0.02;
constexpr std::size_t kMedianOf = 5;
// A small lung behind a narrow way: the hose comes at once, the lung's share trails off later than any exponential.
constexpr double kTwoPartTail = 1.0, kTwoPartLate_s = 0.25;
// With a plug the pressure is still once an edge is over: simulated units move in 1 % of that time, lungs in which a
// phase was lost in 30 % or more.
constexpr double kEdgeOver_s = 0.5, kRampOver_s = 1.05; // a reduced flow ramps the rise
constexpr double kRestBlock_s = 0.1;
constexpr double kStill_per_s = 0.05; // of the larger plateau
constexpr double kRestless = 0.2;
constexpr double kShare = 1.0 / 3.0; // of the edges of one kind
constexpr std::size_t kFewestEdges = 2;

/// Median of a sample and its neighbours.
double smoothed(std::span<const double> values, std::size_t i)
{
    const std::size_t half = kMedianOf / 2, first = i < half ? 0 : i - half;
    const std::size_t last = std::min(values.size(), i + half + 1);
    std::array<double, kMedianOf> about{}; // in order of size
    std::size_t count = 0;
    for (std::size_t k = first; k < last && count < about.size(); ++k, ++count) {
        std::size_t place = count;
        for (; place > 0 && about[place - 1] > values[k]; --place)
            about[place] = about[place - 1];
        about[place] = values[k];
    }
    return (about[count / 2] + about[(count - 1) / 2]) / 2.0;
}

/// Pressure of one phase from its onset on, as what is left of its step: 1 at first, 0 at its end.
struct Approach {
    signal::Samples samples;
    double from_s = 0.0, end_cmH2O = 0.0, step_cmH2O = 0.0;
    double settled = kSettled; ///< share of the step that noise does not reach
    double still_moving = 0.0; ///< share of the step made in the last fifth
    [[nodiscard]] double time_s(std::size_t i) const { return samples.time_s[i] - from_s; }
    [[nodiscard]] double left(std::size_t i) const
    {
        return (end_cmH2O - smoothed(samples.pressure_cmH2O, i)) / step_cmH2O;
    }
};

double mean_of_part(const signal::Samples& samples, double from, double to)
{
    const auto size = static_cast<double>(samples.size());
    const auto part = samples.part(static_cast<std::size_t>(from * size), static_cast<std::size_t>(to * size));
    return signal::mean(part.pressure_cmH2O).value_or(0.0);
}

std::optional<Approach> approach_in(const FindingBasis& basis, const signal::Phase& phase)
{
    if (!phase.entering)
        return std::nullopt;
    const double from_s = phase.start_s(), to_s = phase.leaving ? phase.leaving->onset.time_s : phase.last_time_s;
    if (to_s - from_s < kShortest_s)
        return std::nullopt;
    const auto samples = basis.samples_between(from_s, to_s);
    if (samples.size() < 2 * kMedianOf)
        return std::nullopt;
    const double end = mean_of_part(samples, 0.88, 0.98), step = end - phase.entering->from_cmH2O;
    Approach approach{samples, from_s, end, step};
    approach.settled = std::max(kSettled, kNoises * basis.measured_trace.noise_cmH2O / std::abs(step));
    if (std::abs(step) < kSmallestStep_cmH2O || approach.settled > kMostSettled)
        return std::nullopt;
    approach.still_moving = (end - mean_of_part(samples, 0.7, 0.8)) / step;
    return approach;
}

/// The sample from `i` on at which no more than `left` of the step is left, for 20 ms; the last one where never. A ring
/// does not count: what went beyond its end has come to it.
std::size_t reached(const Approach& approach, double left, std::size_t i)
{
    std::size_t since = i;
    for (; i < approach.samples.size(); ++i) {
        if (approach.left(i) > left)
            since = i + 1;
        else if (approach.time_s(i) - approach.time_s(since) >= kStays_s)
            return since;
    }
    return approach.samples.size() - 1;
}

/// The edge fills or empties something: it comes near its level late, and slower and slower. A ramp of a reduced flow
/// comes late too, but straight, and then stops.
bool is_soft(const Approach& approach)
{
    // What has come nearer has come as near before.
    std::size_t at = 0;
    const auto reached_s = [&](double left) { return approach.time_s(at = reached(approach, left, at)); };
    const double at_10 = reached_s(0.9), at_50 = reached_s(0.5), at_90 = reached_s(0.1),
                 settled = reached_s(approach.settled);
    const double middle = at_90 - at_50;
    const bool bends = middle > kBent * (at_50 - at_10), trails = settled - at_90 > kTail * std::max(middle, kStays_s);
    return (settled > kLate_s && (bends || trails || approach.still_moving > kStillMoving)) ||
           (settled > kTwoPartLate_s && bends && settled - at_90 > kTwoPartTail * middle);
}

bool edges_are_soft(const FindingBasis& basis, const std::vector<const signal::Phase*>& phases)
{
    std::size_t seen = 0, soft = 0;
    for (const auto* phase : phases) {
        // A swing goes on to the end and hides what comes near its level.
        if (phase->oscillation && phase->oscillation->amplitude_cmH2O > 0.0)
            continue;
        if (const auto approach = approach_in(basis, *phase)) {
            ++seen;
            soft += is_soft(*approach) ? 1u : 0u;
        }
    }
    return seen >= kFewestEdges && static_cast<double>(soft) >= kShare * static_cast<double>(seen);
}

/// By hand both signs begin at rest: they are one kind of edge, and a slow rise of a healthy unit is one mark.
bool is_of(const signal::Phase& phase, signal::PhaseKind kind, bool by_hand)
{
    return by_hand && kind == kInsufflation ? phase.kind != kPause : phase.kind == kind;
}

/// The marks seen in the spans of one preset, those by hand apart from the others.
std::vector<std::string> edges_in(const FindingBasis& basis, const std::string& preset, bool by_hand)
{
    std::vector<std::string> marks;
    constexpr std::array<std::pair<signal::PhaseKind, const char*>, 3> kEdges{
        {{kInsufflation, "rise"}, {kExsufflation, "swing"}, {kPause, "release"}}};
    for (const auto& [kind, word] : kEdges) {
        if (by_hand && kind == kExsufflation)
            continue;
        std::vector<const signal::Phase*> phases;
        for (const auto& span : basis.measured_trace.spans)
            if (span.span.preset == preset && (span.span.what == SpanKind::manual) == by_hand)
                for (const auto& phase : span.phases)
                    if (is_of(phase, kind, by_hand))
                        phases.push_back(&phase);
        if (edges_are_soft(basis, phases))
            marks.emplace_back(word);
    }
    return marks;
}

/// Time beyond the edges, and how much of it the pressure goes on moving.
struct Resting {
    double seen_s = 0.0, moving_s = 0.0;
};

void add_rest(const FindingBasis& basis, const signal::Phase& phase, Resting& rest)
{
    const double over_s = phase.kind == kInsufflation ? kRampOver_s : kEdgeOver_s;
    PhaseShapes row{kRestBlock_s, {}, {}};
    append_stretch(row, basis, phase.start_s() + over_s, phase.leaving->onset.time_s);
    const double still = std::max(2.0 * kRestBlock_s * kStill_per_s * basis.measured_trace.larger_plateau_cmH2O,
                                  kNoises * basis.measured_trace.noise_cmH2O);
    for (const auto& blocks : row.pressure)
        for (std::size_t i = 2; i < blocks.size(); ++i) {
            rest.seen_s += kRestBlock_s;
            rest.moving_s += std::abs(blocks[i] - blocks[i - 2]) > still ? kRestBlock_s : 0.0;
        }
}

/// What fills or empties goes on moving until the next edge, which may then be too small to be one: a phase is lost.
bool phases_are_lost_in_movement(const FindingBasis& basis, const std::string& preset)
{
    Resting rest;
    for (const auto& one : basis.measured_trace.missing) {
        const auto& span = basis.measured_trace.spans[one.span];
        if (span.span.preset != preset || rest.seen_s > 0.0)
            continue;
        for (const auto& phase : span.phases)
            if (phase.leaving && (!phase.oscillation || phase.oscillation->amplitude_cmH2O <= 0.0))
                add_rest(basis, phase, rest); // what moves in a phase that was not left may be the next edge
    }
    return rest.moving_s > kRestless * rest.seen_s;
}

bool has(const std::vector<std::string>& marks, const std::string& mark)
{
    return std::find(marks.begin(), marks.end(), mark) != marks.end();
}

/// All marks of one preset. A late return is the release's own lateness.
std::vector<std::string> marks_in(const FindingBasis& basis, const std::string& preset)
{
    auto marks = edges_in(basis, preset, false);
    const auto by_hand = edges_in(basis, preset, true);
    if (by_hand.size() > marks.size())
        marks = by_hand;
    const auto here = [&](const Findings& found) {
        return std::any_of(found.begin(), found.end(), [&](const Finding& one) { return one.preset == preset; });
    };
    if (!has(marks, "release") && !marks.empty() && here(slow_return(basis)))
        marks.emplace_back("return");
    if (!marks.empty() && here(wobble(basis)))
        marks.emplace_back("wobble");
    return marks;
}

std::string in_one_line(const std::vector<std::string>& marks)
{
    std::string words;
    for (std::size_t i = 0; i < marks.size(); ++i)
        words += (i == 0 ? "" : i + 1 < marks.size() ? ", " : " and ") + marks[i];
    return words;
}

void add_answer(const FindingBasis& basis, Finding& found)
{
    const auto* run = basis.measured_trace.evidence->run;
    if (run && run->hose_end && run->hose_end->nothing_soft) {
        found.severity = Severity::note;
        found.text += " " + run->hose_end->by + " answered (" + run->hose_end->at + "): nothing soft, plug seen.";
        return;
    }
    found.touches = basis.all_measurands();
    if (run && run->hose_end)
        found.text += " " + run->hose_end->by + " answered (" + run->hose_end->at + "): something soft is connected.";
    found.text.insert(0, "Is a person, a bag or a soft tube connected? ");
}

} // namespace

Findings soft_hose_end(const FindingBasis& basis)
{
    for (const auto& preset : basis.order.presets) {
        const auto marks = marks_in(basis, preset.name);
        const bool late = marks.size() >= 2;
        if (!late && !phases_are_lost_in_movement(basis, preset.name))
            continue;
        auto found = finding("soft-hose-end", Severity::caution,
                             {"something soft at the hose end, or a clogged line or filter",
                              late ? in_one_line(marks) + " come near their level late, and slower and slower"
                                   : "the pressure goes on moving where no edge is, and a phase is lost in it",
                              "a look at the hose end: nobody connected, no bag, no soft tube, the plug seen; then the "
                              "sensing line and the filter, and the run again"});
        found.preset = basis.order.presets.size() > 1 ? "" : preset.name;
        found.figures = {{"marks", static_cast<double>(marks.size())}};
        add_answer(basis, found);
        return {found};
    }
    return {};
}

} // namespace zeroline::verification
