#include "analysis/verification/trace_measurement.hpp"

#include "analysis/all_cores.hpp"
#include "analysis/signal/shape.hpp"
#include "analysis/verification/exclusions.hpp"
#include "analysis/verification/findings/sensor_signs.hpp"
#include "analysis/verification/response.hpp"
#include "analysis/verification/strength.hpp"
#include "analysis/verification/unlike_cycle.hpp"
#include "analysis/verification/zero.hpp"

#include <algorithm>
#include <tuple>

namespace zeroline::verification {

namespace {

using signal::Phase;
using signal::PhaseKind;

/// Without a run log the whole trace is one automatic span of the first preset.
std::vector<Span> spans_of(const Evidence& evidence)
{
    if (evidence.run != nullptr) {
        return evidence.run->spans;
    }
    Span whole;
    whole.what = SpanKind::automatic;
    whole.preset = evidence.order->presets.front().name;
    if (evidence.trace->size() > 0) {
        whole.from_s = evidence.trace->time_s.front();
        whole.to_s = evidence.trace->time_s.back();
    }
    return {whole};
}

bool seen_whole(const Phase& phase) { return !phase.cut() && phase.entering && phase.leaving; }

bool begins_cut(const MeasuredSpan& measured, const Pair& pair)
{
    const auto cut = [&](const std::optional<std::size_t>& i) { return i && measured.phases[*i].cut_begin; };
    return cut(pair.insufflation) || cut(pair.exsufflation);
}

std::string why_not_judged(const Cycle& cycle, const Pair& pair, SpanKind what, bool lead)
{
    if (what == SpanKind::manual) {
        return "manual";
    }
    const auto cut = [](const std::optional<Phase>& phase) { return phase && !seen_whole(*phase); };
    if (cut(cycle.insufflation) || cut(cycle.exsufflation)) {
        return "cut";
    }
    if (pair.half()) {
        return pair.spare ? "extra" : pair.lacks ? "half" : "cut";
    }
    return lead ? "lead" : "";
}

} // namespace

TraceMeasurement::TraceMeasurement(const Evidence& evidence, PhaseMemory* memory)
    : evidence_(evidence), memory_(memory), spans_(spans_of(evidence))
{
    measured_trace_.evidence = &evidence;
    read_samples();
    find_spans();
    find_plateaus();
    for (auto& measured : measured_trace_.spans) {
        measure_span(measured);
    }
    build_cycles();
    exclude();
    note_missing();
    take_wander();
    fill_quantities();
    leave_out_unlike();
    measured_trace_.leaks = leak_rates(measured_trace_.samples, spans_);
    measure_strength();
}

void TraceMeasurement::read_samples()
{
    const auto& trace = *evidence_.trace;
    if (evidence_.run != nullptr && trace.size() > 0) {
        check_spans(*evidence_.run, trace.time_s.front(), trace.time_s.back());
    }
    measured_trace_.zero = read_zero(trace, spans_);
    measured_trace_.noise_cmH2O = measured_trace_.zero.noise.value_or(0.0);
    pressure_ = trace.pressure_cmH2O;
    const double zero = measured_trace_.zero.before.value_or(0.0);
    for (auto& value : pressure_) {
        value -= zero;
    }
    measured_trace_.samples = {trace.time_s, pressure_};
    measured_trace_.readings = readings_of(measured_trace_.samples, median_interval_s(measured_trace_));
    basis_.instrument = evidence_.instrument;
    basis_.zero = measured_trace_.zero;
    basis_.zero_drift_limit_cmH2O = evidence_.house.zero_drift_cmH2O;
    if (evidence_.run != nullptr && evidence_.run->environment) {
        basis_.room_temperature_C = evidence_.run->environment->temperature_C;
    }
    basis_.sampling = trace.sampling;
    basis_.trace_s = trace.size() > 0 ? trace.time_s.back() - trace.time_s.front() : 0.0;
}

MeasuredSpan TraceMeasurement::span_at(std::size_t index) const
{
    MeasuredSpan measured;
    measured.index = index;
    measured.span = spans_[index];
    measured.prescribed = evidence_.order->preset(spans_[index].preset);
    measured.set = with(spans_[index].set.value_or(Settings{}), *measured.prescribed);
    std::tie(measured.first, measured.last) =
        samples_between(*evidence_.trace, spans_[index].from_s, spans_[index].to_s);
    return measured;
}

void TraceMeasurement::find_spans()
{
    for (std::size_t i = 0; i < spans_.size(); ++i) {
        if (!is_cycling(spans_[i].what)) {
            continue;
        }
        measured_trace_.spans.push_back(span_at(i));
    }
    std::stable_sort(measured_trace_.spans.begin(), measured_trace_.spans.end(),
                     [](const MeasuredSpan& a, const MeasuredSpan& b) { return a.span.from_s < b.span.from_s; });
}

// By preset, not over the whole trace: beside a preset of 70 cmH2O, one of 10 would lie below 20 % of the larger
// plateau and would not be seen at all (docs/decisions/plateau-by-preset.md).
void TraceMeasurement::find_plateaus()
{
    for (const auto& measured : measured_trace_.spans) {
        if (measured.span.what != SpanKind::ladder) {
            const double plateau = signal::larger_plateau(measured_trace_.samples.part(measured.first, measured.last));
            auto& largest = plateaus_[measured.span.preset];
            largest = std::max(largest, plateau);
            measured_trace_.larger_plateau_cmH2O = std::max(measured_trace_.larger_plateau_cmH2O, largest);
        }
    }
}

signal::MeasureOptions TraceMeasurement::options_for(const MeasuredSpan& measured) const
{
    // Levels of their own: dialled in, or under flow.
    const bool own = measured.span.what == SpanKind::ladder || measured.span.what == SpanKind::strength;
    const auto& nominal = own ? measured.set : *measured.prescribed;
    signal::MeasureOptions options;
    options.noise_cmH2O = measured_trace_.noise_cmH2O;
    options.larger_plateau_cmH2O = own ? 0.0 : plateaus_.at(measured.span.preset);
    options.pause_level_cmH2O = nominal.pause.pressure_cmH2O;
    options.zero_band_cmH2O = tolerance_of(measurand::return_to_zero, *evidence_.order, evidence_.house)
                                  .absolute.value_or(options.zero_band_cmH2O);
    options.level_u_cmH2O = instrument_level_u(basis_);
    if (nominal.oscillation)
        options.expected_oscillation_hz = nominal.oscillation->frequency_hz;
    return options;
}

std::vector<Phase> TraceMeasurement::phases_from(const MeasuredSpan& measured, std::size_t from) const
{
    auto phases = signal::measure(measured_trace_.samples.part(from, measured.last), options_for(measured));
    for (auto& phase : phases) {
        phase.first += from;
        phase.last += from;
    }
    return phases;
}

void TraceMeasurement::measure_span(MeasuredSpan& measured)
{
    if (memory_ == nullptr) {
        measured.phases = phases_from(measured, measured.first);
        return;
    }
    const auto known = memory_->known(measured);
    measured.phases = known.all ? known.phases : memory_->joined(measured, known, phases_from(measured, known.from));
}

namespace {

/// Where the last phase of a cycle begins: what is lost in it or after it may be the phase that the next cycle lacks.
double last_onset_s(const Cycle& cycle, double since_s)
{
    for (const auto* phase : {&cycle.insufflation, &cycle.exsufflation, &cycle.pause})
        if (*phase)
            since_s = std::max(since_s, (*phase)->start_s());
    return since_s;
}

} // namespace

void TraceMeasurement::build_cycles()
{
    for (std::size_t i = 0; i < measured_trace_.spans.size(); ++i) {
        auto& measured = measured_trace_.spans[i];
        const auto pairing = pair_cycles(measured.phases, measured.set, measured.span.what);
        measured.reversed = pairing.reversed;
        int begun = 0;
        double since_s = measured.span.from_s;
        for (const auto& pair : pairing.pairs) {
            const bool counted = !begins_cut(measured, pair);
            const bool lead = counted && begun < evidence_.order->lead_cycles;
            begun += counted ? 1 : 0;
            add_cycle(i, pair, since_s, lead);
            since_s = last_onset_s(measured_trace_.cycles.back(), since_s);
        }
    }
}

void TraceMeasurement::add_cycle(std::size_t span_position, const Pair& pair, double since_s, bool lead)
{
    const auto& measured = measured_trace_.spans[span_position];
    Cycle cycle;
    cycle.index = static_cast<int>(measured_trace_.cycles.size()) + 1;
    cycle.preset = measured.span.preset;
    cycle.span = measured.index;
    cycle.reversed = measured.reversed;
    cycle.rest_follows = pair.rest_follows;
    Place place{span_position, pair, since_s, since_s, lead, false};
    std::optional<double> starts;
    const auto take = [&](const std::optional<std::size_t>& position, std::optional<Phase>& onto) {
        if (position) {
            onto = measured.phases[*position];
            starts = std::min(starts.value_or(onto->start_s()), onto->start_s());
            const auto end = std::min(onto->last, measured_trace_.samples.size() - 1);
            place.to_s = std::max(place.to_s, measured_trace_.samples.time_s[end]);
        }
    };
    take(pair.insufflation, cycle.insufflation);
    take(pair.exsufflation, cycle.exsufflation);
    take(pair.pause, cycle.pause);
    cycle.start_s = starts.value_or(since_s);
    if (!pair.lacks) {
        // What is missing may lie before the first phase that is there; a whole cycle begins where it begins.
        place.from_s = cycle.start_s;
    }
    cycle.why_not_judged = why_not_judged(cycle, pair, measured.span.what, lead);
    cycle.judged = cycle.why_not_judged.empty();
    measured_trace_.cycles.push_back(std::move(cycle));
    places_.push_back(place);
}

/// A pause that is missing, or ends in a phase that is, may have lost it in the first phase that was seen after it.
double TraceMeasurement::seen_until_s(std::size_t place) const
{
    if (place + 1 == places_.size() || !(places_[place].pair.lacks_pause || places_[place + 1].pair.lacks)) {
        return places_[place].to_s;
    }
    const auto& next = measured_trace_.cycles[place + 1];
    const auto& first = next.insufflation && !next.reversed ? next.insufflation : next.exsufflation;
    return std::max(places_[place].to_s, first ? first->last_time_s : next.start_s);
}

void TraceMeasurement::exclude()
{
    for (const auto& exclusion : exclusions(measured_trace_)) {
        for (std::size_t i = 0; i < places_.size(); ++i) {
            auto& cycle = measured_trace_.cycles[i];
            if (exclusion.from_s >= seen_until_s(i) || exclusion.to_s <= places_[i].from_s) {
                continue;
            }
            places_[i].excluded = true;
            const auto& why = cycle.why_not_judged;
            if (why.empty() || why == "half" || why == "cut") {
                cycle.judged = false;
                cycle.why_not_judged = exclusion.code;
            }
        }
    }
}

void TraceMeasurement::note_missing()
{
    bool after_plug_off = false;
    for (std::size_t i = 0; i < places_.size(); ++i) {
        const auto& place = places_[i];
        const auto& cycle = measured_trace_.cycles[i];
        const bool whole = cycle.judged || cycle.why_not_judged == "lead";
        after_plug_off = cycle.why_not_judged == "plug-off" || (after_plug_off && !whole);
        if (place.excluded) {
            continue; // what took the cycle out took the phase too: a gap, a plug that came off
        }
        const auto note = [&](PhaseKind which) {
            measured_trace_.missing.push_back({place.span, cycle.index, which, !place.lead && !after_plug_off});
        };
        if (place.pair.lacks) {
            note(*place.pair.lacks);
        }
        if (place.pair.lacks_pause) {
            note(PhaseKind::pause);
        }
    }
}

/// How far the levels of whole pauses of one preset lie apart, rests left out: the zero cannot have moved less.
void TraceMeasurement::take_wander()
{
    std::map<std::string, std::pair<double, double>> bounds;
    for (const auto& cycle : measured_trace_.cycles) {
        if (!cycle.judged || cycle.rest_follows || !cycle.pause || !cycle.pause->plateau || cycle.pause->cut()) {
            continue;
        }
        const double level = cycle.pause->plateau->value_cmH2O;
        auto& [low, high] = bounds.try_emplace(cycle.preset, level, level).first->second;
        low = std::min(low, level);
        high = std::max(high, level);
        basis_.zero_wander_cmH2O = std::max(basis_.zero_wander_cmH2O, high - low);
    }
}

void TraceMeasurement::leave_out_unlike()
{
    if (const auto index = unlike_cycle(measured_trace_)) {
        auto& cycle = measured_trace_.cycles[static_cast<std::size_t>(*index - 1)];
        cycle.judged = false;
        cycle.why_not_judged = "one-cycle-unlike";
    }
}

void TraceMeasurement::fill_quantities()
{
    if (basis_.sampling.rate_hz < kRateForLevels_hz) {
        return;
    }
    on_all_cores_if_long(measured_trace_.samples.size(), places_.size(), [&](std::size_t i) {
        auto& cycle = measured_trace_.cycles[i];
        const auto& measured = measured_trace_.spans[places_[i].span];
        for (const auto* phase : {&cycle.insufflation, &cycle.exsufflation}) {
            if (*phase) {
                fill_phase(cycle, **phase, measured);
            }
        }
        if (cycle.pause) {
            fill_pause(cycle, measured);
        }
    });
}

/// No span of the scene: what is judged of a closed hose end knows nothing of it.
void TraceMeasurement::measure_strength()
{
    for (std::size_t i = 0; i < spans_.size(); ++i) {
        if (spans_[i].what == SpanKind::strength) {
            auto measured = span_at(i);
            measured.phases = phases_from(measured, measured.first);
            const auto rows = strength_in(measured_trace_, measured, instrument_level_u(basis_) / 2.0);
            measured_trace_.strength.insert(measured_trace_.strength.end(), rows.begin(), rows.end());
        }
    }
}

double TraceMeasurement::noise_within(const signal::Level& level) const
{
    const auto [first, last] = samples_between(*evidence_.trace, level.window_from_s, level.window_to_s);
    return signal::sample_noise(measured_trace_.samples.part(first, last));
}

void TraceMeasurement::fill_phase(Cycle& cycle, const Phase& phase, const MeasuredSpan& measured)
{
    const bool insufflation = phase.kind == PhaseKind::insufflation;
    const std::string word = insufflation ? "insufflation" : "exsufflation";
    const auto put = [&](const std::string& name, const std::optional<Cycle::Quantity>& quantity) {
        if (quantity) {
            cycle.quantities[name] = *quantity;
        }
    };
    // The window of a plateau is a part of the phase's duration: of a cut phase nobody knows it.
    if (phase.plateau && !phase.cut()) {
        cycle.quantities[word + "-pressure"] = plateau_quantity(phase, basis_, noise_within(*phase.plateau));
    }
    if (basis_.sampling.rate_hz >= kRateForDurations_hz && measured.span.what != SpanKind::manual) {
        put(word + "-duration", duration_quantity(phase, false, basis_));
        put(word + "-duration-mid-level", duration_quantity(phase, true, basis_));
    }
    if (basis_.sampling.rate_hz >= kRateForTransitions_hz) {
        put(insufflation ? "rise-time" : "swing-time", transition_quantity(phase, basis_));
    }
    if (evidence_.instrument != nullptr && evidence_.instrument->response_ms && !phase.cut()) {
        const double hidden =
            hidden_peak_cmH2O(measured_trace_.samples, phase, lag_s(*evidence_.instrument->response_ms));
        put(word + "-peak", peak_quantity(phase, hidden, basis_));
        put(word + "-overshoot", overshoot_quantity(phase, hidden, basis_));
    }
    if (basis_.sampling.rate_hz >= kRateForTransitions_hz && phase.oscillation) {
        put(word + "-oscillation-frequency", oscillation_frequency_quantity(phase, basis_));
        put(word + "-oscillation-amplitude", oscillation_amplitude_quantity(phase, basis_));
    }
}

void TraceMeasurement::fill_pause(Cycle& cycle, const MeasuredSpan& measured)
{
    const auto& pause = *cycle.pause;
    const auto put = [&](const std::string& name, const std::optional<Cycle::Quantity>& quantity) {
        if (quantity) {
            cycle.quantities[name] = *quantity;
        }
    };
    if (basis_.sampling.rate_hz >= kRateForTransitions_hz) {
        put("release-time", transition_quantity(pause, basis_));
    }
    if (pause.cut()) {
        return;
    }
    const auto& nominal = measured.span.what == SpanKind::ladder ? measured.set : *measured.prescribed;
    put(measurand::pause_residual, residual_quantity(pause, nominal.pause.pressure_cmH2O, basis_,
                                                     pause.plateau ? noise_within(*pause.plateau) : 0.0));
    if (basis_.sampling.rate_hz < kRateForDurations_hz) {
        return;
    }
    put(measurand::return_to_zero, return_quantity(pause, basis_));
    if (measured.span.what != SpanKind::manual) {
        put(measurand::pause_duration, duration_quantity(pause, false, basis_));
        put(measurand::pause_duration + "-mid-level", duration_quantity(pause, true, basis_));
    }
}

const MeasuredSpan& span_of(const MeasuredTrace& measured_trace, const Cycle& cycle)
{
    return *std::find_if(measured_trace.spans.begin(), measured_trace.spans.end(),
                         [&](const MeasuredSpan& measured) { return measured.index == cycle.span; });
}

} // namespace zeroline::verification
