#include "analysis/verification/findings/every_finding.hpp"

#include "acquisition/trace/units.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/verification/civil_time.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

// Atmospheric pressure between sea level in a high (1 050 hPa) and 2 500 m in a low (730 hPa).
constexpr double kThinnestAir_cmH2O = 745.0;
constexpr double kThickestAir_cmH2O = 1071.0;

bool is_atmosphere(double base_cmH2O) { return base_cmH2O > kThinnestAir_cmH2O && base_cmH2O < kThickestAir_cmH2O; }

/// The air's own pressure, where the sensor shows it at the open port, or in most of the trace where that was not read.
std::optional<double> shown_atmosphere_cmH2O(const FindingBasis& basis)
{
    const auto& readings = basis.measured_trace.readings;
    auto base = basis.measured_trace.zero.before;
    // Half of an hour's readings are looked for only if they can be there.
    if (!base && readings.highest_cmH2O > kThinnestAir_cmH2O && readings.lowest_cmH2O < kThickestAir_cmH2O) {
        const auto pressure = basis.measured_trace.samples.pressure_cmH2O;
        base = signal::median({pressure.begin(), pressure.end()});
    }
    return base && is_atmosphere(*base) ? base : std::nullopt;
}

struct Bounds {
    double low, high;
};

std::optional<Bounds> calibrated_cmH2O(const FindingBasis& basis)
{
    const auto* instrument = basis.measured_trace.evidence->instrument;
    if (!instrument)
        return std::nullopt;
    return Bounds{trace::to_cmH2O(instrument->calibrated_low(), instrument->range.unit),
                  trace::to_cmH2O(instrument->calibrated_high(), instrument->range.unit)};
}

Findings outside_calibration_in(const FindingBasis& basis, signal::PhaseKind kind, const Bounds& bounds)
{
    std::vector<const Cycle*> outside;
    double farthest = 0.0;
    for (const auto& group : basis.groups)
        for (const auto& [cycle, level] : plateaus(group.whole, kind))
            if (level < bounds.low || level > bounds.high) {
                outside.push_back(cycle);
                farthest = std::abs(level) > std::abs(farthest) ? level : farthest;
            }
    if (outside.empty())
        return {};
    auto found =
        finding("outside-calibration", Severity::caution,
                {"readings that the calibration does not cover",
                 word_of(kind) + " reached " + in_words(farthest) + " cmH2O and the sensor is calibrated from " +
                     in_words(bounds.low) + " to " + in_words(bounds.high) + " cmH2O",
                 "a sensor calibrated over the whole range; nothing is extrapolated"});
    found.touches = {pressure_of(kind),
                     kind == kInsufflation ? measurand::displayed_insufflation : measurand::displayed_exsufflation};
    found.figures = {{"farthest_cmH2O", farthest}, {"low_cmH2O", bounds.low}, {"high_cmH2O", bounds.high}};
    name_cycles(found, outside);
    return {found};
}

} // namespace

Findings zero_offset(const FindingBasis& basis)
{
    const auto& zero = basis.measured_trace.zero;
    const double limit = basis.house.zero_offset_cmH2O;
    if (!zero.before || std::abs(*zero.before) <= limit || is_atmosphere(*zero.before))
        return {};
    auto found = finding(
        "zero-offset", Severity::caution,
        {"a sensor that does not read zero at the open port",
         "it showed " + in_words(*zero.before) + " cmH2O before the run and " + in_words(limit) + " cmH2O are allowed",
         "taking the sensing line off the tee again, letting the sensor warm up, and a look for water in "
         "the line; then adjust its zero or have it calibrated, and repeat the run"});
    found.touches = basis.pressure_measurands();
    found.figures = {{"zero_before_cmH2O", *zero.before}, {"limit_cmH2O", limit}};
    return {found};
}

Findings zero_drift(const FindingBasis& basis)
{
    const auto& zero = basis.measured_trace.zero;
    const double limit = basis.house.zero_drift_cmH2O;
    if (!zero.drift || std::abs(*zero.drift) <= limit)
        return {};
    auto found =
        finding("zero-drift", Severity::caution,
                {"a sensor whose zero moved during the run",
                 "the open port read " + in_words(*zero.drift) + " cmH2O more after it than before and " +
                     in_words(limit) + " cmH2O are allowed",
                 "a longer warm-up, an even temperature, and the run again; water or a kink in the sensing line "
                 "does the same"});
    found.touches = basis.pressure_measurands();
    found.figures = {{"drift_cmH2O", *zero.drift}, {"limit_cmH2O", limit}};
    return {found};
}

Findings absolute_sensor(const FindingBasis& basis)
{
    const auto base = shown_atmosphere_cmH2O(basis);
    if (!base)
        return {};
    auto found = finding("absolute-sensor", Severity::caution,
                         {"an absolute pressure sensor",
                          "it shows " + in_words(*base, 0) +
                              " cmH2O where a gauge sensor shows zero, which is the air's own "
                              "pressure",
                          "a gauge (or differential) sensor: the weather moves this one by more than the limits"});
    found.touches = basis.all_measurands();
    found.figures = {{"base_cmH2O", *base}};
    return {found};
}

Findings calibration_lapsed(const FindingBasis& basis)
{
    const auto* instrument = basis.measured_trace.evidence->instrument;
    const auto* run = basis.measured_trace.evidence->run;
    if (!instrument || !run || !is_instant(run->began))
        return {};
    const auto day = day_of(run->began);
    // Days are written so that they sort as text.
    if (day <= instrument->calibration.due)
        return {};
    auto found =
        finding("calibration-lapsed", Severity::caution,
                {"an instrument past its calibration",
                 "certificate " + instrument->calibration.certificate + " was valid to " + instrument->calibration.due +
                     " and the run is of " + day,
                 "an instrument whose calibration is valid, and the run again; these figures are indicative only"});
    found.touches = basis.all_measurands();
    return {found};
}

Findings outside_calibration(const FindingBasis& basis)
{
    const auto bounds = calibrated_cmH2O(basis);
    if (!bounds)
        return {};
    auto all = outside_calibration_in(basis, kInsufflation, *bounds);
    const auto other = outside_calibration_in(basis, kExsufflation, *bounds);
    all.insert(all.end(), other.begin(), other.end());
    return all;
}

// What the run was made in, against what the instrument was calibrated in.

namespace {

/// House figure, no published source: so far may the room be from the temperature of the certificate where nothing
/// says what a degree does to the reading.
constexpr double kRoomMayDiffer_C = 5.0;

const Environment* conditions_of(const FindingBasis& basis)
{
    const auto* run = basis.measured_trace.evidence->run;
    return run && run->environment ? &*run->environment : nullptr;
}

const trace::Calibration* papers_of(const FindingBasis& basis)
{
    const auto* instrument = basis.measured_trace.evidence->instrument;
    return instrument ? &instrument->calibration : nullptr;
}

Findings room_not_noted(const trace::Calibration& papers)
{
    auto found =
        finding("room-temperature", Severity::note,
                {"a room whose temperature nobody noted",
                 "the instrument file says what a degree does to a reading and the run log names no temperature",
                 "noting it, so that the uncertainty holds it"});
    found.figures = {{"calibrated_at_C", *papers.temperature_C}};
    return {found};
}

} // namespace

// Of an instrument that may have been on for long before its line was opened the run knows nothing: a note only.
Findings not_warmed_up(const FindingBasis& basis)
{
    const auto* run = conditions_of(basis);
    const auto* papers = papers_of(basis);
    const auto zero_at_s = basis.measured_trace.zero.before_at_s;
    if (!run || !run->instrument_on_s || !papers || !papers->warm_up_s || !zero_at_s)
        return {};
    const double known_s = *run->instrument_on_s + *zero_at_s;
    if (known_s >= *papers->warm_up_s)
        return {};
    const bool stated = *run->instrument_on_s > 0.0;
    const auto wanted = "its file asks for " + in_words(*papers->warm_up_s, 0) + " s of warm-up";
    auto found = finding("not-warmed-up", stated ? Severity::caution : Severity::note,
                         {stated ? "an instrument that was not warm yet" : "an instrument that may not have been warm",
                          "zero was read " + in_words(known_s, 0) + " s after " +
                              (stated ? "it was switched on" : "its line was opened") + " and " + wanted,
                          stated ? "the run again once it has been on for so long"
                                 : "saying how long it had been on, or waiting for so long before zero"});
    found.figures = {{"known_on_s", known_s}, {"warm_up_s", *papers->warm_up_s}};
    return {found};
}

// Where the file says what a degree does, the budget holds it.
Findings room_temperature(const FindingBasis& basis)
{
    const auto* run = conditions_of(basis);
    const auto* papers = papers_of(basis);
    if (!papers || !papers->temperature_C)
        return {};
    if (!run || !run->temperature_C)
        return papers->temperature_coefficient ? room_not_noted(*papers) : Findings{};
    const double difference = *run->temperature_C - *papers->temperature_C;
    if (papers->temperature_coefficient || std::abs(difference) <= kRoomMayDiffer_C)
        return {};
    auto found = finding("room-temperature", Severity::caution,
                         {"a room unlike the one of the calibration",
                          "it had " + in_words(*run->temperature_C, 1) + " \u00B0C, the certificate says " +
                              in_words(*papers->temperature_C, 1) +
                              " \u00B0C, and the instrument file does not say what a degree does to a reading",
                          "the run again in a room within " + in_words(kRoomMayDiffer_C, 0) +
                              " \u00B0C (house figure, no published source), or stating the temperature coefficient; "
                              "the uncertainty does not hold it"});
    found.figures = {
        {"room_C", *run->temperature_C}, {"calibrated_at_C", *papers->temperature_C}, {"limit_C", kRoomMayDiffer_C}};
    return {found};
}

} // namespace zeroline::verification
