#include "analysis/verification/judgement_hindrances.hpp"

#include "analysis/verification/civil_time.hpp"
#include "analysis/verification/figures.hpp"
#include "analysis/verification/rates.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

void check_calibration(const Evidence& evidence, std::vector<Hindrance>& found)
{
    if (evidence.run->began.empty()) {
        found.push_back({{"no-date", "The run log does not say when the run began, so nobody can tell whether the "
                                     "calibration was valid on that day."},
                         {},
                         {}});
        return;
    }
    if (evidence.instrument == nullptr) {
        return;
    }
    const auto day = day_of(evidence.run->began);
    const auto& calibration = evidence.instrument->calibration;
    // Dates as YYYY-MM-DD sort like days.
    if (day > calibration.due) {
        found.push_back({{"calibration-lapsed", "The calibration " + calibration.certificate + " was due on " +
                                                    calibration.due + ", before this run on " + day +
                                                    ": indicative only, no statement of conformity."},
                         {},
                         {}});
    } else if (day < calibration.on) {
        found.push_back({{"calibration-later", "The calibration " + calibration.certificate + " was done on " +
                                                   calibration.on + ", after this run on " + day + "."},
                         {},
                         {}});
    }
}

void check_confirmations(const RunLog& run, std::vector<Hindrance>& found)
{
    const std::pair<const char*, const char*> kNeeded[] = {
        {"outlet-blocked", "that the outlet was blocked"},
        {"no-patient-connected", "that no patient was connected"},
        {"trigger-off", "that the breath trigger was off"},
    };
    for (const auto& [word, that] : kNeeded) {
        if (!run.has_confirmed(word)) {
            found.push_back(
                {{std::string("not-confirmed-") + word, std::string("Nobody confirmed ") + that + "."}, {}, {}});
        }
    }
}

void check_spans_of_presets(const MeasuredTrace& measured_trace, std::vector<Hindrance>& found)
{
    for (const auto& preset : measured_trace.evidence->order->presets) {
        const bool has =
            std::any_of(measured_trace.spans.begin(), measured_trace.spans.end(), [&](const MeasuredSpan& measured) {
                return measured.span.what == SpanKind::automatic && measured.span.preset == preset.name;
            });
        if (!has) {
            found.push_back(
                {{"no-automatic-span", "The preset " + preset.name + " was not run automatically."}, {}, preset.name});
        }
    }
}

void check_rate(const MeasuredTrace& measured_trace, std::vector<Hindrance>& found)
{
    const double rate = measured_trace.evidence->trace->sampling.rate_hz;
    const auto too_slow = [&](const std::string& what, double needed) {
        return Reason{"sampling-rate",
                      "The trace was sampled at " + figure(rate) + " Hz: " + what + " need " + figure(needed) + " Hz."};
    };
    if (rate < kRateForLevels_hz) {
        found.push_back({too_slow("levels", kRateForLevels_hz), {}, {}});
        return;
    }
    if (rate < kRateForDurations_hz) {
        found.push_back({too_slow("durations", kRateForDurations_hz),
                         {measurand::insufflation_duration, measurand::exsufflation_duration, measurand::pause_duration,
                          measurand::return_to_zero},
                         {}});
    }
    if (rate < kRateForTransitions_hz) {
        found.push_back({too_slow("oscillation figures", kRateForTransitions_hz),
                         {measurand::oscillation_frequency, measurand::oscillation_amplitude},
                         {}});
    }
}

void check_evidence(const MeasuredTrace& measured_trace, std::vector<Hindrance>& found)
{
    const auto& evidence = *measured_trace.evidence;
    if (evidence.run == nullptr) {
        found.push_back({{"no-run-log", "There is no run log: what was done to the unit, and when, is not known. Holds "
                                        "by hand, the plug's coming off and a last phase that is cut may look like "
                                        "faults."},
                         {},
                         {}});
        return;
    }
    if (evidence.instrument == nullptr) {
        found.push_back({{"no-instrument", "There is no instrument file: calibration and range are not known, and "
                                           "uncertainties hold the signal's own part only."},
                         {},
                         {}});
    }
    check_calibration(evidence, found);
    if (!measured_trace.zero.before) {
        found.push_back({{"no-zero-before", "There is no reading of at least 3 s with the port open to air before the "
                                            "run: the zero is not known."},
                         {},
                         {}});
    }
    check_confirmations(*evidence.run, found);
    check_spans_of_presets(measured_trace, found);
}

} // namespace

bool Hindrance::stops(const std::string& measurand, const std::string& of_preset) const
{
    const bool named = std::find(measurands.begin(), measurands.end(), measurand) != measurands.end();
    return (measurands.empty() || named) && (preset.empty() || preset == of_preset);
}

std::vector<Hindrance> hindrances(const MeasuredTrace& measured_trace, const std::vector<Finding>& findings)
{
    std::vector<Hindrance> found;
    check_evidence(measured_trace, found);
    check_rate(measured_trace, found);
    for (const auto& finding : findings) {
        if (!finding.touches.empty()) {
            found.push_back({{finding.code, finding.text}, finding.touches, finding.preset});
        }
    }
    return found;
}

const Hindrance* first_hindrance(const std::vector<Hindrance>& all, const std::string& measurand,
                                 const std::string& preset)
{
    const auto it = std::find_if(all.begin(), all.end(),
                                 [&](const Hindrance& hindrance) { return hindrance.stops(measurand, preset); });
    return it == all.end() ? nullptr : &*it;
}

} // namespace zeroline::verification
