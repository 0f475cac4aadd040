#include "analysis/signal/pipeline.hpp"

#include "analysis/signal/return_to_band.hpp"
#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace zeroline::signal {
namespace {

constexpr double kSettled = 0.05;      // of the step, over the plateau window
constexpr double kBeforeCutFoot = 0.7; // of a pause that begins the trace: the edge after it begins later

PhaseKind kind_of(Zone zone)
{
    if (zone == 0) {
        return PhaseKind::pause;
    }
    return zone > 0 ? PhaseKind::insufflation : PhaseKind::exsufflation;
}

// Median of a few samples of the part in which the level is taken: needs no more than to tell where the middle lies.
double rough_level(PhaseKind kind, const Dwell& dwell, const SampleBuffer& buffer)
{
    constexpr std::size_t kProbes = 33;
    const auto from = static_cast<double>(dwell.first);
    const auto length = static_cast<double>(dwell.last - dwell.first);
    const Interval part = level_interval(kind, {from, from + length});
    std::vector<double> values;
    for (std::size_t k = 0; k < kProbes; ++k) {
        const double share = (static_cast<double>(k) + 0.5) / static_cast<double>(kProbes);
        const auto index = static_cast<std::size_t>(part.from_s + share * part.length_s());
        values.push_back(buffer.pressure(std::min(index, dwell.last - 1)));
    }
    return median(std::move(values)).value_or(0.0);
}

// The peak with the oscillation taken off. Where the phase begins it may not swing yet, or not so: no sample counts for
// more than it showed.
std::optional<double> still_peak_of(Samples samples, Interval phase, int sign, const SteadyOscillation& swing)
{
    OwnedSamples still = without_swing(samples, swing);
    for (std::size_t i = 0; i < still.size(); ++i) {
        double& value = still.pressure_cmH2O[i];
        value = sign > 0 ? std::min(value, samples.pressure_cmH2O[i]) : std::max(value, samples.pressure_cmH2O[i]);
    }
    const auto lower = peak_of(still.view(), phase, sign);
    const auto steady = peak_of(without_swing(samples, swing).view(), phase.part(0.3, 1.0), sign);
    return lower && steady ? sign * std::max(sign * *lower, sign * *steady) : lower;
}

// What a steady sinusoid leaves of a real oscillation on an edge, and what the places tried do not hold: as a share of
// the edge's time and of the amplitude over the step, found on drawn edges.
void add_swing(Transition& edge, const EdgeOscillations& swings)
{
    constexpr double kShare = 0.018;
    const double amplitude = std::max(swings.before ? swings.before->amplitude_cmH2O() : 0.0,
                                      swings.after ? swings.after->amplitude_cmH2O() : 0.0);
    const double step = std::abs(edge.to_cmH2O - edge.from_cmH2O);
    if (amplitude <= 0.0 || step <= 0.0 || !edge.time_10_90_s) {
        return;
    }
    const double u_s = kShare * amplitude / step * *edge.time_10_90_s;
    edge.onset.sampling_u_s = std::hypot(edge.onset.sampling_u_s, u_s);
    edge.mid.sampling_u_s = std::hypot(edge.mid.sampling_u_s, u_s / 2.0);
    edge.time_10_90_u_s = std::hypot(edge.time_10_90_u_s, u_s);
}

std::size_t share_of(const Dwell& dwell, double share)
{
    return dwell.first + static_cast<std::size_t>(share * static_cast<double>(dwell.last - dwell.first));
}

} // namespace

void Pipeline::add(const Dwell& dwell, bool begins_trace, bool ends_trace, const SampleBuffer& buffer)
{
    Node node;
    node.dwell = dwell;
    node.begins_trace = begins_trace;
    node.ends_trace = ends_trace;
    node.kind = kind_of(dwell.zone);
    node.rough_cmH2O = rough_level(node.kind, dwell, buffer);
    nodes_.push_back(node);
    ended_ = ended_ || ends_trace;
    advance(buffer);
}

std::vector<Phase> Pipeline::take() { return std::exchange(done_, {}); }

std::size_t Pipeline::needed_from() const noexcept { return needed_from_; }

// Each stage waits for the stage before it on the node itself and on the one after it.
void Pipeline::advance(const SampleBuffer& buffer)
{
    const std::size_t count = nodes_.size();
    const auto ready = [&](std::size_t done_by_stage_before, std::size_t k) {
        return k + 1 < done_by_stage_before || (ended_ && k + 1 == count && done_by_stage_before == count);
    };
    for (; middles_ < count; ++middles_) {
        place_middle(middles_, buffer);
    }
    for (std::size_t pass = 0; pass < kPasses; ++pass) {
        const std::size_t before = pass == 0 ? middles_ : onsets_[pass - 1];
        for (; ready(before, provisional_[pass]); ++provisional_[pass]) {
            take_provisional_level(pass, provisional_[pass], buffer);
        }
        for (; onsets_[pass] < provisional_[pass]; ++onsets_[pass]) {
            place_onset(pass, onsets_[pass], buffer);
        }
    }
    for (; ready(onsets_.back(), levels_); ++levels_) {
        take_level(levels_, buffer);
    }
    for (; entering_ < levels_; ++entering_) {
        measure_entering(entering_, buffer);
    }
    while (!nodes_.empty() && (entering_ > 1 || (ended_ && entering_ == nodes_.size()))) {
        finish_phase(buffer);
    }
}

Pipeline::EdgeView Pipeline::edge_before(std::size_t k, EdgeLevels levels, const SampleBuffer& buffer) const
{
    const Node& before = nodes_[k - 1];
    const Node& after = nodes_[k];
    EdgeView view;
    view.first = share_of(before.dwell, 0.1);
    view.last_before = before.dwell.last - 1 - view.first;
    view.samples = buffer.view(view.first, share_of(after.dwell, 0.9));
    view.swings = {before.oscillation, after.oscillation};
    if (view.swings.any()) {
        const Changeovers found =
            changeovers(view.samples, view.swings, levels, view.last_before, options_.noise_cmH2O);
        view.swings.grows_between = found.grows ? std::optional(levels) : std::nullopt;
        view.changeovers = found.places;
        view.still = cleared(view.samples, view.swings, middle_of(view.changeovers));
        view.samples = view.still.view();
    }
    return view;
}

void Pipeline::place_middle(std::size_t k, const SampleBuffer& buffer)
{
    if (k == 0) {
        return;
    }
    const EdgeLevels levels{nodes_[k - 1].rough_cmH2O, nodes_[k].rough_cmH2O};
    const EdgeView edge = edge_before(k, levels, buffer);
    nodes_[k].enter = find_mid_crossing(edge.samples, levels, edge.last_before, options_.noise_cmH2O);
    if (nodes_[k].enter) {
        nodes_[k].enter->after += edge.first;
    }
}

// Where the edge was not found the dwell's own bounds serve. How long a pause was whose beginning was not seen nobody
// knows: the last quarter of what is left of it may be no more than the foot of the edge that follows, so its level is
// taken farther from that.
Interval Pipeline::between(std::size_t k, std::optional<double> begin_s, std::optional<double> end_s,
                           const SampleBuffer& buffer) const
{
    const Dwell& dwell = nodes_[k].dwell;
    const double first_s = buffer.time(dwell.first);
    const double last_s = buffer.time(dwell.last - 1);
    Interval interval{begin_s.value_or(first_s), end_s.value_or(last_s)};
    if (interval.length_s() <= 0.0) {
        interval = {first_s, last_s};
    }
    const bool cut = !begin_s && nodes_[k].begins_trace && nodes_[k].kind == PhaseKind::pause;
    return cut && end_s ? interval.part(0.0, kBeforeCutFoot) : interval;
}

Interval Pipeline::between_middles(std::size_t k, const SampleBuffer& buffer) const
{
    const auto time_of = [](const std::optional<MidCrossing>& mid) {
        return mid ? std::optional<double>(mid->time_s) : std::nullopt;
    };
    return between(k, time_of(nodes_[k].enter), k + 1 < nodes_.size() ? time_of(nodes_[k + 1].enter) : std::nullopt,
                   buffer);
}

Interval Pipeline::between_onsets(std::size_t pass, std::size_t k, const SampleBuffer& buffer) const
{
    return between(k, nodes_[k].onset_s[pass], k + 1 < nodes_.size() ? nodes_[k + 1].onset_s[pass] : std::nullopt,
                   buffer);
}

Samples Pipeline::around(std::size_t k, const SampleBuffer& buffer) const
{
    // The node before the front one is gone, but its samples are kept from needed_from_ on.
    const std::size_t before = nodes_[k].begins_trace ? nodes_[k].dwell.first : needed_from_;
    const std::size_t first = k > 0 ? share_of(nodes_[k - 1].dwell, 0.5) : before;
    const std::size_t last = k + 1 < nodes_.size() ? share_of(nodes_[k + 1].dwell, 0.5) : nodes_[k].dwell.last;
    return buffer.view(std::max(first, buffer.begin()), last);
}

constexpr double kMoved_cmH2O = 0.2;     // a pass is spared where levels moved by less than this ...
constexpr double kUnsettled_cmH2O = 1.5; // ... and the second counts unless later ones lead farther away than this
constexpr int kMorePasses = 12;          // for a pause only, after those that all phases get

// Whether the level of a phase moved in a pass.
bool Pipeline::moved(std::size_t pass, std::size_t k) const
{
    const auto& level = nodes_[k].provisional_cmH2O;
    if (beside_oscillation(k) && pass <= kWithoutSwing) {
        return true;
    }
    return pass == 0 || std::abs(level[pass] - level[pass - 1]) > kMoved_cmH2O;
}

// Where the pause before node `next` ends once its level goes on moving one way, and ever less, from pass to pass: more
// passes, until it rests. None where it rests already, or wanders (a slow ring): that does not get better by more of
// them.
std::optional<double> Pipeline::end_at_rest(std::size_t k, const SampleBuffer& buffer) const
{
    const auto& level = nodes_[k].provisional_cmH2O;
    static_assert(kPasses == 4);
    double step = level[3] - level[2];
    // Beside an oscillation the passes before say nothing of the way.
    const double way = beside_oscillation(k) ? step : level[2] - level[1];
    if (nodes_[k].kind != PhaseKind::pause || std::abs(way) < kMoved_cmH2O || k + 1 == nodes_.size() ||
        !nodes_[k].onset_s.back() || !nodes_[k + 1].onset_s.back() || step * way < 0.0) {
        return std::nullopt;
    }
    const OwnedSamples still = beside_oscillation(k) ? still_around(k, buffer) : OwnedSamples{};
    const Samples samples = beside_oscillation(k) ? still.view() : around(k, buffer);
    double end_s = *nodes_[k + 1].onset_s.back();
    double at = level[3];
    for (int pass = 0; std::abs(step) >= kMoved_cmH2O; ++pass) {
        const EdgeLevels levels{at, nodes_[k + 1].provisional_cmH2O.back()};
        const EdgeView edge = edge_before(k + 1, levels, buffer);
        const auto mid = find_mid_crossing(edge.samples, levels, edge.last_before, options_.noise_cmH2O);
        if (!mid || pass == kMorePasses) {
            return std::nullopt;
        }
        end_s = onset_of(edge.samples, levels, *mid, options_.noise_cmH2O);
        const Interval window = level_interval(PhaseKind::pause, {*nodes_[k].onset_s.back(), end_s});
        const double next = window_mean(samples, window.from_s, window.to_s);
        if (window.length_s() <= 0.0 || (next - at) * step < 0.0) {
            return std::nullopt;
        }
        step = next - at;
        at = next;
    }
    return end_s;
}

void Pipeline::take_provisional_level(std::size_t pass, std::size_t k, const SampleBuffer& buffer)
{
    Node& node = nodes_[k];
    const bool between_edges = pass == 0 || (pass == kWithoutSwing && beside_oscillation(k));
    const Interval phase = between_edges ? between_middles(k, buffer) : between_onsets(pass - 1, k, buffer);
    if (pass > 1 && !beside_oscillation(k)) {
        const Interval last = between_onsets(pass - 2, k, buffer);
        if (phase.from_s == last.from_s && phase.to_s == last.to_s) {
            node.provisional_cmH2O[pass] = node.provisional_cmH2O[pass - 1];
            return;
        }
    }
    // The middles take in what swings already in the edge that ends the phase.
    if (node.kind != PhaseKind::pause && (pass == 0 || !between_edges)) {
        look_for_oscillation(k, phase, buffer);
    }
    if (node.oscillation || (pass > 0 && beside_oscillation(k))) {
        const auto fit = level_of(k, phase, buffer);
        node.provisional_cmH2O[pass] = fit ? fit->level.value_cmH2O : node.rough_cmH2O;
        return;
    }
    const Interval window = level_interval(node.kind, phase);
    node.provisional_cmH2O[pass] = window_mean(around(k, buffer), window.from_s, window.to_s);
}

void Pipeline::place_onset(std::size_t pass, std::size_t k, const SampleBuffer& buffer)
{
    if (k == 0 || !nodes_[k].enter) {
        return;
    }
    if (!moved(pass, k - 1) && !moved(pass, k)) {
        nodes_[k].onset_s[pass] = nodes_[k].onset_s[pass - 1];
        return;
    }
    const EdgeLevels levels{nodes_[k - 1].provisional_cmH2O[pass], nodes_[k].provisional_cmH2O[pass]};
    const EdgeView edge = edge_before(k, levels, buffer);
    if (!edge.changeovers.empty()) {
        nodes_[k].changeover_s = middle_of(edge.changeovers);
        nodes_[k].grows_between = edge.swings.grows_between;
    }
    const auto mid = find_mid_crossing(edge.samples, levels, edge.last_before, options_.noise_cmH2O);
    if (mid) {
        nodes_[k].enter = MidCrossing{mid->after + edge.first, mid->time_s};
        nodes_[k].onset_s[pass] = onset_of(edge.samples, levels, *mid, options_.noise_cmH2O);
    }
}

// In the first pass what swings in the phase after it lies within a pause; the levels and onsets that come of it are
// poor. Once it is known the definition begins anew, with the middles.
bool Pipeline::beside_oscillation(std::size_t k) const
{
    return nodes_[k].oscillation || (k > 0 && nodes_[k - 1].oscillation) ||
           (k + 1 < nodes_.size() && nodes_[k + 1].oscillation);
}

void Pipeline::take_level(std::size_t k, const SampleBuffer& buffer)
{
    const auto level_after = [&](std::size_t pass) {
        const Interval phase = between_onsets(pass, k, buffer);
        if (nodes_[k].oscillation) {
            look_for_oscillation(k, phase, buffer);
        }
        return level_of(k, phase, buffer);
    };
    nodes_[k].level = level_after(beside_oscillation(k) ? kWithoutSwing : 0);
    const auto end_s = nodes_[k].level ? end_at_rest(k, buffer) : std::nullopt;
    if (!end_s) {
        return;
    }
    const auto at_rest = level_of(k, between(k, nodes_[k].onset_s.back(), end_s, buffer), buffer);
    const double second = nodes_[k].level->level.value_cmH2O;
    if (at_rest && std::abs(at_rest->level.value_cmH2O - second) > kUnsettled_cmH2O) {
        nodes_[k].level = at_rest;
    }
}

void Pipeline::measure_entering(std::size_t k, const SampleBuffer& buffer)
{
    if (k == 0 || !nodes_[k].onset_s.back() || !nodes_[k - 1].level || !nodes_[k].level) {
        return;
    }
    const EdgeLevels levels{nodes_[k - 1].level->level.value_cmH2O, nodes_[k].level->level.value_cmH2O};
    const EdgeView edge = edge_before(k, levels, buffer);
    const auto mid = find_mid_crossing(edge.samples, levels, edge.last_before, options_.noise_cmH2O);
    if (mid) {
        nodes_[k].enter = MidCrossing{mid->after + edge.first, mid->time_s};
        nodes_[k].entering = transition_at(edge, levels, *mid, buffer);
        add_swing(*nodes_[k].entering, edge.swings);
    }
}

// Where an oscillation begins or ends within the edge, every place in question is tried.
Transition Pipeline::transition_at(const EdgeView& edge, EdgeLevels levels, MidCrossing mid,
                                   const SampleBuffer& buffer) const
{
    if (edge.changeovers.size() < 2) {
        return measure_transition(edge.samples, levels, mid, options_.noise_cmH2O);
    }
    const Samples samples = buffer.view(edge.first, edge.first + edge.samples.size());
    std::vector<Transition> transitions;
    for (const Changeover& one : edge.changeovers) {
        const OwnedSamples still = cleared(samples, edge.swings, one.time_s);
        const auto own = find_mid_crossing(still.view(), levels, edge.last_before, options_.noise_cmH2O);
        transitions.push_back(measure_transition(still.view(), levels, own.value_or(mid), options_.noise_cmH2O));
    }
    return averaged(transitions, edge.changeovers);
}

Phase Pipeline::outline(const SampleBuffer& buffer) const
{
    const Node& node = nodes_.front();
    const Node* next = nodes_.size() > 1 ? &nodes_[1] : nullptr;
    Phase phase;
    phase.kind = node.kind;
    phase.entering = node.entering;
    phase.leaving = next != nullptr ? next->entering : std::nullopt;
    phase.cut_begin = !phase.entering;
    phase.cut_end = !phase.leaving;
    phase.first = node.enter ? node.enter->after : node.dwell.first;
    phase.last = next != nullptr && next->enter ? next->enter->after : node.dwell.last;
    // Where both middles fell on one sample, or changed places, it still begins no earlier than the phase before.
    phase.first = std::max(phase.first, begun_);
    phase.last = std::max(phase.last, phase.first + 1);
    phase.first_time_s = buffer.time(phase.first);
    phase.last_time_s = buffer.time(phase.last - 1);
    phase.first = buffer.number_given(phase.first);
    phase.last = buffer.number_given(phase.last - 1) + 1;
    return phase;
}

void Pipeline::describe_level(Phase& phase, const SampleBuffer& buffer) const
{
    const Node& node = nodes_.front();
    if (!node.level) {
        return;
    }
    phase.plateau = node.level->level;
    phase.ripple_cmH2O = node.level->ripple_cmH2O;
    const double value = node.level->level.value_cmH2O;
    const double slope = node.level->slope_cmH2O_per_s;
    phase.droop_cmH2O_per_s = value >= 0.0 ? -slope : slope;
    const double left = phase.entering ? phase.entering->from_cmH2O : options_.rest_cmH2O.value_or(0.0);
    const double moved = std::abs(slope) * level_interval(phase.kind, between_onsets(0, 0, buffer)).length_s();
    phase.settled = moved <= kSettled * std::abs(value - left);
    const double begin_u =
        phase.entering ? std::hypot(phase.entering->onset.noise_u_s, phase.entering->onset.sampling_u_s) : 0.0;
    const double end_u =
        phase.leaving ? std::hypot(phase.leaving->onset.noise_u_s, phase.leaving->onset.sampling_u_s) : 0.0;
    phase.plateau->position_u_cmH2O = std::abs(slope) * std::hypot(0.3 * begin_u, 0.7 * end_u);
    if (phase.kind == PhaseKind::pause) {
        return;
    }
    const Interval interval = between_onsets(0, 0, buffer);
    const int sign = phase.kind == PhaseKind::insufflation ? 1 : -1;
    phase.peak_cmH2O = peak_of(around(0, buffer), interval, sign);
    std::optional<double> still_peak = phase.peak_cmH2O;
    if (node.oscillation) {
        phase.oscillation = Oscillation{node.oscillation->frequency_hz, node.oscillation->amplitude_cmH2O(),
                                        node.oscillation->frequency_u_hz, node.oscillation->amplitude_u_cmH2O};
        still_peak = still_peak_of(around(0, buffer), interval, sign, *node.oscillation);
    }
    if (!node.oscillation && options_.expected_oscillation_hz && !phase.cut() &&
        would_show(around(0, buffer), interval, *options_.expected_oscillation_hz)) {
        phase.oscillation = Oscillation{};
    }
    if (still_peak && phase.entering && value != left) {
        phase.overshoot_percent = 100.0 * (*still_peak - value) / (value - left);
    }
}

void Pipeline::describe_return(Phase& phase, const SampleBuffer& buffer) const
{
    if (phase.kind != PhaseKind::pause || phase.cut()) {
        return;
    }
    const Band band{options_.pause_level_cmH2O, options_.zero_band_cmH2O, options_.level_u_cmH2O};
    const Interval pause{phase.entering->onset.time_s, phase.leaving->onset.time_s};
    const OwnedSamples still = beside_oscillation(0) ? still_around(0, buffer) : OwnedSamples{};
    const Samples samples = beside_oscillation(0) ? still.view() : around(0, buffer);
    const ReturnToBand found =
        return_to_band(samples, pause, band, phase.leaving->time_10_90_s.value_or(0.0), options_.noise_cmH2O);
    phase.returned = found.returned;
    phase.next_entry_s = found.next_entry_s;
    if (found.returned) {
        phase.return_to_band = found.entry;
        phase.return_slope_cmH2O_per_s = found.slope_cmH2O_per_s;
    }
}

void Pipeline::finish_phase(const SampleBuffer& buffer)
{
    Phase phase = outline(buffer);
    begun_ = nodes_.front().enter ? std::max(begun_, nodes_.front().enter->after) : begun_;
    describe_level(phase, buffer);
    describe_return(phase, buffer);
    while (!spikes_.empty() && spikes_.front() < phase.last) {
        phase.spikes += static_cast<std::size_t>(spikes_.front() >= phase.first);
        spikes_.pop_front();
    }
    if (phase.entering) {
        phase.entering->reached = phase.settled;
    }
    if (phase.leaving && nodes_.size() > 1 && nodes_[1].level) {
        const double moved = std::abs(nodes_[1].level->slope_cmH2O_per_s) *
                             level_interval(nodes_[1].kind, between_onsets(0, 1, buffer)).length_s();
        phase.leaving->reached = moved <= kSettled * std::abs(phase.leaving->to_cmH2O - phase.leaving->from_cmH2O);
    }
    done_.push_back(std::move(phase));
    needed_from_ = share_of(nodes_.front().dwell, 0.1);
    nodes_.pop_front();
    --middles_;
    for (std::size_t pass = 0; pass < kPasses; ++pass) {
        --provisional_[pass];
        --onsets_[pass];
    }
    --levels_;
    --entering_;
}

} // namespace zeroline::signal
