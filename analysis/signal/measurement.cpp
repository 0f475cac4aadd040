#include "analysis/signal/measurement.hpp"

#include "analysis/signal/held_levels.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/signal/thinning.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

namespace zeroline::signal {
namespace {

constexpr double kRests_cmH2O = 0.2;   // a level that moves less from pass to pass rests
constexpr double kBeforeCutFoot = 0.7; // of a pause that begins the trace: the edge after it begins later

std::size_t share_of(const Dwell& dwell, double share)
{
    return dwell.first + static_cast<std::size_t>(share * static_cast<double>(dwell.last - dwell.first));
}

// Median of a few samples of the part in which the level is taken: needs no more than to tell where the middle lies.
double rough_level(PhaseKind kind, const Dwell& dwell, Samples samples)
{
    constexpr std::size_t kProbes = 33;
    const auto from = static_cast<double>(dwell.first);
    const Interval part = level_interval(kind, {from, from + static_cast<double>(dwell.last - dwell.first)});
    std::vector<double> values;
    values.reserve(kProbes);
    for (std::size_t k = 0; k < kProbes; ++k) {
        const double share = (static_cast<double>(k) + 0.5) / static_cast<double>(kProbes);
        const auto index = static_cast<std::size_t>(part.from_s + share * part.length_s());
        values.push_back(samples.pressure_cmH2O[std::min(index, dwell.last - 1)]);
    }
    return median(std::move(values)).value_or(0.0);
}

// Steepest and flattest local slope (magnitude) of a stretch.
struct Slopes {
    double steepest = 0.0;
    double flattest = std::numeric_limits<double>::infinity();
};

Slopes slopes_of(Samples all)
{
    constexpr double kLocal_s = 0.1;
    constexpr double kGroup_s = 0.01; // means over that: a slope over ten times as long needs no more
    const double span_s = all.size() > 0 ? all.time_s.back() - all.time_s.front() : 0.0;
    const OwnedSamples thinned = thinned_to(all, 1 + static_cast<std::size_t>(span_s / kGroup_s));
    const Samples samples = thinned.view();
    Slopes slopes;
    std::size_t first = 0;
    for (std::size_t last = 0; last < samples.size(); ++last) {
        if (last - first < 4 || samples.time_s[last] - samples.time_s[first] < kLocal_s - 1e-9) {
            continue;
        }
        const Samples local = samples.part(first, last + 1);
        if (const auto line = fit_line(local.time_s, local.pressure_cmH2O)) {
            slopes.steepest = std::max(slopes.steepest, std::abs(line->slope));
            slopes.flattest = std::min(slopes.flattest, std::abs(line->slope));
        }
        ++first;
    }
    return slopes;
}

} // namespace

Measurement::Measurement(Samples samples, const MeasureOptions& options, bool noise_known)
    : options_(options), clear_(samples, spike_floor(options.noise_cmH2O, options.larger_plateau_cmH2O)),
      samples_(clear_.view())
{
    recognise();
    place_middles();
    Oscillations oscillations(options_.noise_cmH2O, options_.expected_oscillation_hz.has_value());
    find_oscillations(oscillations, false);
    const bool any = any_oscillates();
    if (any && !noise_known) {
        take_noise_beside_oscillations();
    }
    if (any) {
        place_middles();
    }
    for (std::size_t k = 0; k < stays_.size(); ++k) {
        stays_[k].level_cmH2O = provisional_level(k);
    }
    for (std::size_t k = 1; k < stays_.size(); ++k) {
        place_onset(k);
    }
    if (any) {
        find_oscillations(oscillations, true);
    }
    take_levels();
    for (std::size_t k = 1; k < stays_.size(); ++k) {
        measure_edge(k);
    }
}

void Measurement::recognise()
{
    const double threshold = phase_threshold(options_.noise_cmH2O, options_.larger_plateau_cmH2O);
    const double rest = options_.rest_cmH2O.value_or(options_.pause_level_cmH2O);
    const std::vector<Dwell> dwells = dwells_of(samples_, clear_.blocks(), {rest - threshold, rest + threshold});
    for (std::size_t k = 0; k < dwells.size(); ++k) {
        if (k > 0 && k + 1 < dwells.size() && !stays_.empty() &&
            only_passed(stays_.back().dwell, dwells[k], dwells[k + 1])) {
            continue;
        }
        Stay stay;
        stay.dwell = dwells[k];
        stay.kind = kind_of(dwells[k].zone);
        stay.level_cmH2O = rough_level(stay.kind, stay.dwell, samples_);
        stays_.push_back(std::move(stay));
    }
}

// A slow swing may stay near the rest for longer than a dwell. A pause slows down between two edges; a single edge does
// not slow down and then run on.
bool Measurement::only_passed(const Dwell& before, const Dwell& dwell, const Dwell& after) const
{
    constexpr double kSurelyPause_s = 1.0; // no single edge takes that long through the rest's zone
    constexpr double kSlowsDown = 0.5;     // of the steepest slope beside it
    constexpr double kHardly = 0.2;        // of the zone's width
    if (dwell.zone != 0 || before.zone * after.zone >= 0 ||
        samples_.time_s[dwell.last - 1] - samples_.time_s[dwell.first] > kSurelyPause_s) {
        return false;
    }
    // Most pauses hardly move in their middle half, of which an edge that slows down to half would pass a third.
    const double zone_cmH2O = 2.0 * phase_threshold(options_.noise_cmH2O, options_.larger_plateau_cmH2O);
    const auto at = [&](double share) {
        const std::size_t i = std::clamp<std::size_t>(share_of(dwell, share), 1, samples_.size() - 2);
        const auto& p = samples_.pressure_cmH2O;
        return median_of_three(p[i - 1], p[i], p[i + 1]);
    };
    if (std::abs(at(0.75) - at(0.25)) < kHardly * zone_cmH2O) {
        return false;
    }
    const std::size_t reach = dwell.last - dwell.first;
    const std::size_t from = std::max(before.first, dwell.first - std::min(dwell.first, reach));
    const double flattest = slopes_of(samples_.part(dwell.first, dwell.last)).flattest;
    const std::size_t to = std::min(after.last, dwell.last + std::max<std::size_t>(reach, 1));
    return std::isfinite(flattest) && (flattest > kSlowsDown * slopes_of(samples_.part(from, dwell.first)).steepest ||
                                       flattest > kSlowsDown * slopes_of(samples_.part(dwell.last, to)).steepest);
}

std::size_t Measurement::edge_first(std::size_t k) const { return share_of(stays_[k - 1].dwell, 0.1); }

std::optional<std::size_t> Measurement::middle_of(const Edge& edge, std::size_t k) const
{
    return sustained_middle(edge, stays_[k - 1].dwell.last - 1 - edge_first(k));
}

std::optional<Measurement::FoundEdge> Measurement::edge_into(std::size_t k, EdgeLevels levels) const
{
    const std::size_t first = edge_first(k);
    const std::size_t last = std::max(share_of(stays_[k].dwell, 0.9), first + 2);
    const Edge edge(samples_.part(first, std::min(last, samples_.size())), levels, options_.noise_cmH2O);
    const auto middle = middle_of(edge, k);
    return middle ? std::optional(FoundEdge{edge, *middle}) : std::nullopt;
}

void Measurement::place_middles()
{
    for (std::size_t k = 1; k < stays_.size(); ++k) {
        if (const auto found = edge_into(k, {stays_[k - 1].level_cmH2O, stays_[k].level_cmH2O})) {
            stays_[k].middle = edge_first(k) + found->middle;
            stays_[k].middle_s = crossing_at(found->edge, found->middle, 0.5).time_s;
        }
    }
}

void Measurement::find_oscillations(Oscillations& oscillations, bool by_onsets)
{
    std::vector<std::size_t> numbers;
    std::vector<OscillatingPhase> phases;
    for (std::size_t k = 0; k < stays_.size(); ++k) {
        if (stays_[k].kind == PhaseKind::pause) {
            continue;
        }
        const bool cut = !stays_[k].middle_s || k + 1 == stays_.size() || !stays_[k + 1].middle_s;
        numbers.push_back(k);
        phases.push_back({stays_[k].kind, cut, by_onsets ? between_onsets(k) : between_middles(k), around(k)});
    }
    auto found = oscillations.find(phases);
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        stays_[numbers[i]].oscillation = std::move(found[i]);
        if (const auto& own = stays_[numbers[i]].oscillation; own && !by_onsets) {
            stays_[numbers[i]].level_cmH2O = own->constant_cmH2O;
        }
    }
}

// A fast oscillation looks like noise from sample to sample. What is left once it is taken off does not; the quieter
// phases tell.
void Measurement::take_noise_beside_oscillations()
{
    std::vector<double> left;
    for (const Stay& stay : stays_) {
        if (stay.oscillation) {
            left.push_back(stay.oscillation->noise_cmH2O);
        }
    }
    std::sort(left.begin(), left.end());
    options_.noise_cmH2O = std::min(options_.noise_cmH2O, left[left.size() / 4]);
}

bool Measurement::any_oscillates() const
{
    return std::any_of(stays_.begin(), stays_.end(), [](const Stay& stay) { return stay.oscillation.has_value(); });
}

// Where the edge was not found the dwell's own bounds serve. How long a pause was whose beginning was not seen nobody
// knows: the last quarter of what is left of it may be no more than the foot of the edge that follows, so its level is
// taken farther from that.
Interval Measurement::between(std::size_t k, std::optional<double> begin_s, std::optional<double> end_s) const
{
    const Dwell& dwell = stays_[k].dwell;
    const double first_s = samples_.time_s[dwell.first];
    const double last_s = samples_.time_s[dwell.last - 1];
    Interval interval{begin_s.value_or(first_s), end_s.value_or(last_s)};
    if (interval.length_s() <= 0.0) {
        interval = {first_s, last_s};
    }
    const bool cut = !begin_s && k == 0 && stays_[k].kind == PhaseKind::pause;
    return cut && end_s ? interval.part(0.0, kBeforeCutFoot) : interval;
}

Interval Measurement::between_middles(std::size_t k) const
{
    return between(k, stays_[k].middle_s, k + 1 < stays_.size() ? stays_[k + 1].middle_s : std::nullopt);
}

Interval Measurement::between_onsets(std::size_t k) const
{
    return between(k, stays_[k].onset_s, k + 1 < stays_.size() ? stays_[k + 1].onset_s : std::nullopt);
}

Samples Measurement::around(std::size_t k) const
{
    const std::size_t first = k > 0 ? share_of(stays_[k - 1].dwell, 0.5) : stays_[k].dwell.first;
    const std::size_t last = k + 1 < stays_.size() ? share_of(stays_[k + 1].dwell, 0.5) : stays_[k].dwell.last;
    return samples_.part(first, last);
}

std::optional<WindowFit> Measurement::level_of(std::size_t k, Interval phase) const
{
    if (stays_[k].oscillation) {
        return level_with_oscillation(k, phase);
    }
    const Interval window = level_interval(stays_[k].kind, phase);
    return fit_window(around(k), window.from_s, window.to_s, options_.noise_cmH2O);
}

// Between the middles of the edges; a mean is enough.
double Measurement::provisional_level(std::size_t k) const
{
    const Interval phase = between_middles(k);
    const auto& swing = stays_[k].oscillation;
    const auto whole = swing ? whole_periods(phase, swing->frequency_hz) : std::nullopt;
    if (swing && !whole) {
        return swing->constant_cmH2O;
    }
    const Interval window = whole.value_or(level_interval(stays_[k].kind, phase));
    return window_mean(around(k), window.from_s, window.to_s);
}

// Over whole periods where one fits; else the constant fitted beside the oscillation.
std::optional<WindowFit> Measurement::level_with_oscillation(std::size_t k, Interval phase) const
{
    const SteadyOscillation& oscillation = *stays_[k].oscillation;
    const Samples samples = around(k);
    const SampleWindow part = samples_between(samples, phase.part(0.3, 0.9).from_s, phase.part(0.3, 0.9).to_s);
    const OwnedSamples still = without_swing(samples.part(part.first, part.last), oscillation);
    const auto whole = whole_periods(phase, oscillation.frequency_hz);
    const Interval window = whole.value_or(phase.part(0.3, 0.9));
    auto fit = fit_window(still.view(), window.from_s, window.to_s, options_.noise_cmH2O);
    if (!fit) {
        return fit;
    }
    // Whether it has settled, and droop, show where they show without an oscillation.
    const Interval plateau = level_interval(stays_[k].kind, phase);
    if (const auto line = fit_window(still.view(), plateau.from_s, plateau.to_s, options_.noise_cmH2O)) {
        fit->slope_cmH2O_per_s = line->slope_cmH2O_per_s;
    }
    if (!whole) {
        fit->level.value_cmH2O = oscillation.constant_cmH2O;
        fit->slope_cmH2O_per_s = 0.0;
    }
    fit->level.noise_u_cmH2O = std::max(fit->level.noise_u_cmH2O, oscillation.constant_u_cmH2O);
    return fit;
}

void Measurement::place_onset(std::size_t k)
{
    const auto found =
        stays_[k].middle_s ? edge_into(k, {stays_[k - 1].level_cmH2O, stays_[k].level_cmH2O}) : std::nullopt;
    if (found) {
        stays_[k].onset_s = onset_of(found->edge, found->middle);
    }
}

void Measurement::take_levels()
{
    std::vector<double> provisional_cmH2O;
    for (std::size_t k = 0; k < stays_.size(); ++k) {
        provisional_cmH2O.push_back(stays_[k].level_cmH2O);
        stays_[k].fit = level_of(k, between_onsets(k));
        stays_[k].level_cmH2O = stays_[k].fit ? stays_[k].fit->level.value_cmH2O : stays_[k].level_cmH2O;
    }
    let_pauses_rest(provisional_cmH2O);
}

// A pause that is short beside the rise after it was bounded by that rise's middle: its level may go on moving from
// pass to pass. More passes, until it rests; they count, for all pauses, where one of them leads far from the second
// (docs/method.md).
void Measurement::let_pauses_rest(const std::vector<double>& provisional_cmH2O)
{
    constexpr double kFar_cmH2O = 1.5;                               // less is within what the house's limit of 2 tells
    std::vector<std::pair<std::size_t, std::array<Stay, 2>>> second; // what changes: pause and the stay after it
    bool far = false;
    for (std::size_t k = 0; k + 1 < stays_.size(); ++k) {
        if (stays_[k].kind == PhaseKind::pause && wanders(k, provisional_cmH2O[k])) {
            second.push_back({k, {stays_[k], stays_[k + 1]}});
            far = rest(k, provisional_cmH2O[k]) > kFar_cmH2O || far;
        }
    }
    for (auto it = second.rbegin(); !far && it != second.rend(); ++it) {
        std::move(it->second.begin(), it->second.end(), stays_.begin() + static_cast<std::ptrdiff_t>(it->first));
    }
}

bool Measurement::wanders(std::size_t k, double provisional_cmH2O) const
{
    return std::abs(stays_[k].level_cmH2O - provisional_cmH2O) > kRests_cmH2O && stays_[k].onset_s &&
           stays_[k + 1].onset_s && stays_[k].fit;
}

// By how much the level of a pause moves until it rests. 0 where it wanders, which does not get better by more passes.
double Measurement::rest(std::size_t k, double provisional_cmH2O)
{
    constexpr int kMostPasses = 12;
    double step = stays_[k].level_cmH2O - provisional_cmH2O;
    const Stay second = stays_[k];
    const auto end_s = stays_[k + 1].onset_s;
    for (int pass = 0; pass < kMostPasses; ++pass) {
        place_onset(k + 1);
        const auto fit = level_of(k, between_onsets(k));
        const double next = fit ? fit->level.value_cmH2O - stays_[k].level_cmH2O : 0.0;
        if (fit && std::abs(next) <= kRests_cmH2O) {
            return std::abs(stays_[k].level_cmH2O - second.level_cmH2O);
        }
        if (next * step <= 0.0) {
            break;
        }
        stays_[k].fit = fit;
        stays_[k].level_cmH2O = fit->level.value_cmH2O;
        step = next;
    }
    stays_[k] = second;
    stays_[k + 1].onset_s = end_s;
    return 0.0;
}

void Measurement::measure_edge(std::size_t k)
{
    const auto& from = stays_[k - 1].fit;
    const auto& to = stays_[k].fit;
    if (!stays_[k].onset_s || !from || !to) {
        return;
    }
    const EdgeLevels levels{from->level.value_cmH2O, to->level.value_cmH2O, from->level.noise_u_cmH2O,
                            to->level.noise_u_cmH2O};
    if (const auto found = edge_into(k, levels)) {
        stays_[k].middle = edge_first(k) + found->middle;
        stays_[k].entering = beside_oscillations(*found, k);
    }
}

// An edge is timed on the pressure as it is. Beside an oscillation that may be told otherwise: without what swings in
// the phases on both sides, which ends and begins at the onset or as late as at the middle. One that crosses the
// 10 % point by itself, long before the edge, begins no edge: that is then timed without it.
Transition Measurement::beside_oscillations(FoundEdge found, std::size_t k) const
{
    constexpr double kLong = 0.5; // of the edge's 10-90 % time: nothing within an edge moves its onset by so much
    const Transition as_it_is = transition_at(found.edge, found.middle);
    const auto& before = stays_[k - 1].oscillation;
    const auto& after = stays_[k].oscillation;
    if (!before && !after) {
        return as_it_is;
    }
    const auto without = [&](double changeover_s) -> std::optional<Transition> {
        found.edge.take_off(before ? &*before : nullptr, after ? &*after : nullptr, changeover_s);
        const auto still = middle_of(found.edge, k);
        return still ? std::optional(transition_at(found.edge, *still)) : std::nullopt;
    };
    const auto late = without(as_it_is.mid.time_s);
    const auto early = late ? without(late->onset.time_s) : std::nullopt;
    // On an edge that starts slowly the swing may begin well before the onset.
    const auto earlier =
        early ? without(early->onset.time_s - kBeforeOnset * early->time_10_90_s.value_or(0.0)) : std::nullopt;
    if (!late || !early || !earlier) {
        return as_it_is;
    }
    const double apart_s = std::abs(as_it_is.onset.time_s - early->onset.time_s);
    const bool by_itself = apart_s > kLong * early->time_10_90_s.value_or(0.0);
    const Transition wide = widened(widened(by_itself ? *early : as_it_is, *early), *late);
    return widened(wide, *earlier);
}

} // namespace zeroline::signal
