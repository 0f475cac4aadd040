// Findings and reasons in the language of the screen. The analysis writes them in English with their figures; in
// another language the sentence of the code stands, and the figures behind it.

#include "gui/session/result_words.hpp"

#include <QCoreApplication>

#include <algorithm>

namespace zeroline::session {

namespace {

struct Sentence {
    const char* code;
    const char* text;
};

constexpr Sentence kFindings[] = {
    {"breathing",
     QT_TRANSLATE_NOOP("Finding",
                       "Stop. Is someone connected? The pressure swings like breath. Take the hose off the person; "
                       "run again with nobody connected.")},
    {"soft-hose-end",
     QT_TRANSLATE_NOOP("Finding",
                       "Is a person, a bag or a soft tube connected? The pressure comes near its levels late, "
                       "and slower and slower. Look at the hose end and the plug; then line and filter.")},
    {"swapped-ports", QT_TRANSLATE_NOOP("Finding", "Both signs are the other way round: sensing line on the wrong port "
                                                   "of the sensor, or the unit. Try the other port.")},
    {"over-pressure",
     QT_TRANSLATE_NOOP("Finding",
                       "More pressure than prescribed and allowed. Keep the unit out of use; check zero and setting.")},
    {"peak-held", QT_TRANSLATE_NOOP("Finding", "The pressure stayed beyond its peak limit. Keep the unit out of use.")},
    {"reversed-order",
     QT_TRANSLATE_NOOP("Finding",
                       "Exsufflation came first in most cycles. Keep the unit out of use; check how it is connected.")},
    {"manual-sign", QT_TRANSLATE_NOOP("Finding", "The unit did the opposite of what was asked for by hand.")},
    {"absolute-sensor",
     QT_TRANSLATE_NOOP("Finding", "Looks like an absolute pressure sensor. Try a gauge (or differential) sensor.")},
    {"no-cycling",
     QT_TRANSLATE_NOOP("Finding",
                       "No phase was seen. Is the unit running, is the line on the tee, does the plug sit tight?")},
    {"calibration-lapsed",
     QT_TRANSLATE_NOOP("Finding",
                       "The calibration of the instrument has lapsed: indicative only. Try another instrument.")},
    {"outside-calibration",
     QT_TRANSLATE_NOOP("Finding",
                       "Readings that the calibration does not cover. Try a sensor calibrated over the whole range.")},
    {"not-warmed-up",
     QT_TRANSLATE_NOOP("Finding", "Zero was read before the instrument is known to be warm. Wait as long as its papers "
                                  "say, or say how long it has been on.")},
    {"room-temperature",
     QT_TRANSLATE_NOOP("Finding",
                       "What the room's temperature does to the instrument is not known: the uncertainty does not "
                       "hold it. Note the temperature, and what a degree does to a reading.")},
    {"unit-mismatch", QT_TRANSLATE_NOOP("Finding", "Looks like another pressure unit: both pressures are off by the "
                                                   "ratio of two units. Check the unit of the instrument file.")},
    {"zero-offset",
     QT_TRANSLATE_NOOP("Finding",
                       "The open port does not read zero. Set the instrument to zero, with the line off the tee.")},
    {"zero-drift", QT_TRANSLATE_NOOP("Finding", "The zero moved during the run. Try a longer warm-up and an even "
                                                "temperature; look for water or a kink in the line.")},
    {"one-sided",
     QT_TRANSLATE_NOOP("Finding", "Looks like a sensor that cannot read below zero. Try one for both signs.")},
    {"clipped",
     QT_TRANSLATE_NOOP("Finding", "Readings stop at the end of the sensor's range. Try a sensor with a wider range.")},
    {"stuck-reading",
     QT_TRANSLATE_NOOP("Finding", "The same reading came again and again. Restart the instrument, check its line.")},
    {"resolution-limited", QT_TRANSLATE_NOOP("Finding", "The steps of the reading are coarser than its noise.")},
    {"gap",
     QT_TRANSLATE_NOOP("Finding", "Readings are missing. Check cable and adapter; the cycles with gaps do not count.")},
    {"discarded-bytes", QT_TRANSLATE_NOOP("Finding", "Bytes came that are no reading. Check cable, baud and parity.")},
    {"spikes",
     QT_TRANSLATE_NOOP("Finding", "Single readings are far off. Check cable and shielding; they are left out.")},
    {"batched",
     QT_TRANSLATE_NOOP(
         "Finding", "Readings arrive in bunches, as an adapter delivers them; their times are taken from the count.")},
    {"undersampled", QT_TRANSLATE_NOOP("Finding", "Fewer than three readings in a transition. Try a faster rate.")},
    {"hum",
     QT_TRANSLATE_NOOP("Finding", "Mains hum in the readings. Try another supply or a battery, and a shorter cable.")},
    {"wobble", QT_TRANSLATE_NOOP("Finding", "Looks like a hand that holds the hose shut. Try the plug.")},
    {"plug-off",
     QT_TRANSLATE_NOOP("Finding", "The plug came off inside a phase. Press it in again; that cycle does not count.")},
    {"one-cycle-unlike",
     QT_TRANSLATE_NOOP("Finding", "One cycle is unlike the others: was the hose touched? More cycles are needed; it is "
                                  "left out once, a second one is the unit's.")},
    {"same-ratio-pressure",
     QT_TRANSLATE_NOOP("Finding", "Both pressures are off by one ratio: leak, weak blower, or the sensor's span. Try "
                                  "the leak test, another hose, a second gauge.")},
    {"same-shift-pressure",
     QT_TRANSLATE_NOOP("Finding", "All levels are shifted by the same amount: looks like the zero. Read zero again.")},
    {"settings-differ",
     QT_TRANSLATE_NOOP(
         "Finding",
         "The unit is set otherwise than prescribed: no fault of the unit. Do not change it unless authorised.")},
    {"first-cycle", QT_TRANSLATE_NOOP("Finding", "The first cycle differs from the others, as is usual.")},
    {"series-ended", QT_TRANSLATE_NOOP("Finding", "The programmed series came to its end.")},
    {"cut-phase", QT_TRANSLATE_NOOP("Finding", "A phase begins or ends outside its span and is not judged.")},
    {"missing-insufflation",
     QT_TRANSLATE_NOOP("Finding", "Insufflation did not come in a cycle. Check valve and control of the unit.")},
    {"missing-exsufflation",
     QT_TRANSLATE_NOOP("Finding", "Exsufflation did not come in a cycle. Check valve and control of the unit.")},
    {"long-pause",
     QT_TRANSLATE_NOOP("Finding",
                       "A pause far longer than prescribed: is the breath trigger on? Switch it off and repeat.")},
    {"insufflation-off",
     QT_TRANSLATE_NOOP("Finding",
                       "Insufflation does not reach its pressure. Check zero, plug and hose; then its control.")},
    {"exsufflation-off",
     QT_TRANSLATE_NOOP("Finding",
                       "Exsufflation does not reach its pressure. Check zero, plug and hose; then its control.")},
    {"display-differs", QT_TRANSLATE_NOOP("Finding", "What the unit displays differs from what was measured.")},
    {"slow-rise", QT_TRANSLATE_NOOP("Finding", "The pressure rises slowly. Check filter, hose and the flow setting.")},
    {"slow-swing", QT_TRANSLATE_NOOP("Finding", "The swing from insufflation to exsufflation is slow. Check the valve; "
                                                "if all edges are slow, the line or the filter.")},
    {"slow-release", QT_TRANSLATE_NOOP("Finding", "The pressure is released slowly. Check valve, filter and line.")},
    {"irregular-swing",
     QT_TRANSLATE_NOOP("Finding", "The swing differs from cycle to cycle: looks like a sticking valve.")},
    {"irregular-timing", QT_TRANSLATE_NOOP("Finding", "Durations differ from cycle to cycle.")},
    {"one-duration-off", QT_TRANSLATE_NOOP("Finding", "One duration is off: looks like one timer.")},
    {"same-ratio-timing",
     QT_TRANSLATE_NOOP("Finding", "All durations are off by one ratio: the unit's clock or the instrument's.")},
    {"overshoot", QT_TRANSLATE_NOOP("Finding", "The pressure overshoots its plateau.")},
    {"ringing",
     QT_TRANSLATE_NOOP("Finding",
                       "The pressure rings after a transition: control, hose or sensing line, by its frequency.")},
    {"series-plan",
     QT_TRANSLATE_NOOP("Finding",
                       "The prescribed series cycles for long without a rest, or rests shortly. Ask whoever wrote "
                       "the prescription; nothing is changed here.")},
    {"set-up-leaks",
     QT_TRANSLATE_NOOP("Finding", "The set-up loses its pressure without the unit. Look at plug, tee, hose and sensing "
                                  "line; then the leak test and the run again.")},
    {"strength-lost",
     QT_TRANSLATE_NOOP("Finding",
                       "Under flow the unit keeps less of its pressure than when it was first tested so. Look "
                       "at its filters and its hose; then the blower.")},
    {"droop", QT_TRANSLATE_NOOP(
                  "Finding", "The pressure falls within the plateau. Try the leak test of the set-up, another hose.")},
    {"residual-pressure",
     QT_TRANSLATE_NOOP("Finding",
                       "Pressure stays in the pause. Check the valve; repeat with the hose end opened in the pause.")},
    {"slow-return",
     QT_TRANSLATE_NOOP("Finding", "The pressure comes back to zero slowly, or never. Check valve and filter.")},
    {"trapped-gas",
     QT_TRANSLATE_NOOP("Finding",
                       "Looks like gas trapped at the block. Repeat with the hose end opened in the pause.")},
    {"oscillation", QT_TRANSLATE_NOOP("Finding", "An oscillation that nobody prescribed. Switch it off and repeat.")},
    {"oscillation-off", QT_TRANSLATE_NOOP("Finding", "The prescribed oscillation is missing or not as prescribed.")},
    {"pressure-drift",
     QT_TRANSLATE_NOOP("Finding", "The pressures change over the run. Try again on mains, warmed up.")},
};

constexpr Sentence kReasons[] = {
    {"calibration-later", QT_TRANSLATE_NOOP("Reason", "The calibration was done after this run.")},
    {"not-confirmed-outlet-blocked", QT_TRANSLATE_NOOP("Reason", "Nobody confirmed that the outlet was blocked.")},
    {"not-confirmed-no-patient-connected",
     QT_TRANSLATE_NOOP("Reason", "Nobody confirmed that no patient was connected.")},
    {"not-confirmed-trigger-off", QT_TRANSLATE_NOOP("Reason", "Nobody confirmed that the breath trigger was off.")},
    {"no-automatic-span", QT_TRANSLATE_NOOP("Reason", "A preset was not run automatically.")},
    {"no-run-log",
     QT_TRANSLATE_NOOP(
         "Reason", "There is no run log: what was done to the unit is not known; holds by hand may look like faults.")},
    {"no-instrument", QT_TRANSLATE_NOOP("Reason", "There is no instrument file: calibration and range are not known.")},
    {"no-zero-before", QT_TRANSLATE_NOOP("Reason", "There is no zero reading before the run.")},
    {"no-zero-after",
     QT_TRANSLATE_NOOP("Reason", "There is no zero reading after the run: the house limit of drift is used.")},
    {"response-not-stated",
     QT_TRANSLATE_NOOP("Reason",
                       "The response of sensor and line is not stated: peak and overshoot are at least what is "
                       "shown.")},
    {"too-uncertain",
     QT_TRANSLATE_NOOP("Reason", "The uncertainty is larger than the tolerance: neither pass nor fail can be said.")},
    {"no-date", QT_TRANSLATE_NOOP("Reason", "It is not known when the run began.")},
    {"sampling-rate", QT_TRANSLATE_NOOP("Reason", "The sampling rate is too low for some figures.")},
    {"missing-phase", QT_TRANSLATE_NOOP("Reason", "A phase did not come.")},
    {"not-returned", QT_TRANSLATE_NOOP("Reason", "The pressure did not come back to the zero band.")},
    {"missing-oscillation", QT_TRANSLATE_NOOP("Reason", "No oscillation was found although it is prescribed.")},
    {"too-few-cycles", QT_TRANSLATE_NOOP("Reason", "Too few cycles could be judged.")},
    {"outside-limits", QT_TRANSLATE_NOOP("Reason", "Outside the limits.")},
    {"near-limit", QT_TRANSLATE_NOOP("Reason", "Inside, but nearer to a limit than the uncertainty.")},
    {"low-ratio", QT_TRANSLATE_NOOP("Reason", "The tolerance is less than four times the uncertainty.")},
    {"display-not-read", QT_TRANSLATE_NOOP("Reason", "What the unit displays was not read.")},
    {"display-not-measured", QT_TRANSLATE_NOOP("Reason", "The unit displays no measured pressure.")},
    {"house-tolerance", QT_TRANSLATE_NOOP("Reason", "House limits were used: no published source.")},
    {"checklist", QT_TRANSLATE_NOOP("Reason", "An item of the checklist is not in order.")},
    {"not-restored", QT_TRANSLATE_NOOP("Reason", "The unit was not confirmed as given back as it must be.")},
    {"left-otherwise", QT_TRANSLATE_NOOP("Reason", "The unit was left neither as found nor as prescribed.")},
};

template <std::size_t Count> const char* sentence_for(const Sentence (&sentences)[Count], const QString& code)
{
    const auto* const found = std::find_if(std::begin(sentences), std::end(sentences),
                                           [&](const Sentence& one) { return code == QLatin1String(one.code); });
    return found == std::end(sentences) ? nullptr : found->text;
}

template <std::size_t Count>
QString translated(const char* context, const Sentence (&sentences)[Count], const QString& code)
{
    const char* source = sentence_for(sentences, code);
    if (source == nullptr) {
        return {};
    }
    const auto text = QCoreApplication::translate(context, source);
    return text == QString::fromUtf8(source) ? QString() : text;
}

} // namespace

QString translated_finding(const QString& code) { return translated("Finding", kFindings, code); }

QString translated_reason(const QString& code)
{
    // A finding that stands in the way of a verdict lends its code to the reason.
    auto bare = code;
    bare.remove(QLatin1String("possible-"));
    const auto text = translated("Reason", kReasons, bare);
    return text.isEmpty() ? translated_finding(bare) : text;
}

} // namespace zeroline::session
