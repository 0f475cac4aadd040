#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/signal/statistics.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace zeroline::verification {

namespace {

constexpr double kDroopShare = 0.05;
constexpr double kWindowShare = 0.4;        // of the phase: from 50 % to 90 %
constexpr double kOscillation_cmH2O = 1.2;  // ripple of healthy units stays below 1
constexpr double kOscillationShare = 0.025; // of the plateau
constexpr std::size_t kPhasesLookedAt = 24; // enough to see; no hour of trace costs more
constexpr double kMost = 0.6;               // of the phases show it
constexpr double kSameFrequency = 0.15;
constexpr double kTooWeak = 0.7, kTooStrong = 1.4; // of the prescribed amplitude, the hose's share taken off
constexpr double kAbsent = 0.25;
constexpr double kUsualHose_m = 1.8;
constexpr double kSound_m_per_s = 344.0; // air at 21 C

bool oscillates_by_order(const Preset& preset, signal::PhaseKind kind)
{
    if (!preset.oscillation)
        return false;
    switch (preset.oscillation->during) {
    case During::insufflation:
        return kind == kInsufflation;
    case During::exsufflation:
        return kind == kExsufflation;
    case During::both:
        break;
    }
    return true;
}

std::vector<Value> droops(const Group& group, signal::PhaseKind kind)
{
    std::vector<Value> shares;
    for (const auto* cycle : group.judged) {
        const auto& phase = phase_of(*cycle, kind);
        if (!phase || !phase->plateau || !phase->droop_cmH2O_per_s || phase->plateau->value_cmH2O == 0.0)
            continue;
        const double window_s = phase->plateau->window_to_s - phase->plateau->window_from_s;
        // Under an oscillation the window is longer: the same slope is the same droop.
        const double usual_s = std::min(window_s, kWindowShare * phase->duration_s().value_or(0.0));
        shares.push_back({cycle, *phase->droop_cmH2O_per_s * usual_s / std::abs(phase->plateau->value_cmH2O)});
    }
    return shares;
}

/// The oscillation that the phases of one kind have in common.
struct SharedOscillation {
    double frequency_hz = 0.0, amplitude_cmH2O = 0.0, share = 0.0; ///< share of the phases that show it
    std::vector<const Cycle*> cycles;
};

std::optional<SharedOscillation> common_oscillation(const Group& group, signal::PhaseKind kind)
{
    std::vector<double> frequencies, amplitudes;
    SharedOscillation common;
    std::size_t looked_at = 0;
    for (const auto* cycle : group.whole) {
        const auto& phase = phase_of(*cycle, kind);
        if (!phase || looked_at == kPhasesLookedAt)
            continue;
        ++looked_at;
        if (const auto& seen = phase->oscillation; seen && seen->amplitude_cmH2O > 0.0) {
            frequencies.push_back(seen->frequency_hz);
            amplitudes.push_back(seen->amplitude_cmH2O);
            common.cycles.push_back(cycle);
        }
    }
    if (frequencies.empty())
        return std::nullopt;
    common.frequency_hz = *signal::median(frequencies);
    common.amplitude_cmH2O = *signal::median(amplitudes);
    const auto agree = std::count_if(frequencies.begin(), frequencies.end(), [&](double f) {
        return std::abs(f / common.frequency_hz - 1.0) < kSameFrequency;
    });
    common.share = static_cast<double>(agree) / static_cast<double>(looked_at);
    return common;
}

double hose_gain(const FindingBasis& basis, double frequency_hz)
{
    const auto* run = basis.measured_trace.evidence->run;
    const double length_m = run && run->hose && run->hose->length_m ? *run->hose->length_m : kUsualHose_m;
    const double angle = 2.0 * std::numbers::pi * frequency_hz * length_m / kSound_m_per_s;
    return angle < 1.4 ? 1.0 / std::cos(angle) : 1.0;
}

/// What is wrong with an oscillation that is prescribed; empty where nothing is.
std::string wrong_with(const FindingBasis& basis, const Group& group, const std::optional<SharedOscillation>& seen)
{
    const auto& wanted = *group.nominal.oscillation;
    if (!seen || seen->share < kMost || seen->amplitude_cmH2O < kAbsent * wanted.amplitude_cmH2O)
        return "no oscillation of " + in_words(wanted.frequency_hz, 1) + " Hz is seen";
    const auto limits = limits_of(measurand::oscillation_frequency, group.nominal, basis.order, basis.house);
    if (metrology::margin(seen->frequency_hz, limits) < 0.0)
        return "it runs at " + in_words(seen->frequency_hz, 1) + " Hz and " + in_words(wanted.frequency_hz, 1) +
               " Hz is wanted";
    const double at_unit = seen->amplitude_cmH2O / hose_gain(basis, seen->frequency_hz);
    if (at_unit < kTooWeak * wanted.amplitude_cmH2O || at_unit > kTooStrong * wanted.amplitude_cmH2O)
        return "its amplitude is about " + in_words(at_unit, 1) + " cmH2O at the unit and " +
               in_words(wanted.amplitude_cmH2O, 1) + " is wanted";
    return {};
}

} // namespace

Findings droop(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups)
        for (const auto kind : {kInsufflation, kExsufflation}) {
            const auto seen = droops(group, kind);
            const auto share = median_of(seen);
            if (!share || *share <= kDroopShare)
                continue;
            all.push_back(finding(basis, group, "droop", Severity::caution,
                                  {"a unit that cannot hold its pressure, or a leak that grows under it",
                                   word_of(kind) + " loses " + in_words(100.0 * *share, 1) + " % within its plateau",
                                   "the leak test of plug and hose; then the blower, its supply and its filter"},
                                  {{"share", *share}}, seen));
        }
    return all;
}

Findings oscillation(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups)
        for (const auto kind : {kInsufflation, kExsufflation}) {
            const auto seen = common_oscillation(group, kind);
            const auto level = mean_of(plateaus(group.whole, kind));
            if (oscillates_by_order(group.nominal, kind) || !seen || seen->share < kMost || !level ||
                seen->amplitude_cmH2O < std::max(kOscillation_cmH2O, kOscillationShare * std::abs(*level)))
                continue;
            all.push_back(finding(
                basis, group, "oscillation", Severity::caution,
                {"an oscillation left on",
                 word_of(kind) + " carries " + in_words(seen->amplitude_cmH2O, 1) + " cmH2O at " +
                     in_words(seen->frequency_hz, 1) + " Hz and none is prescribed",
                 "the unit's oscillation switched off; without one, a blower that hunts at a closed hose"},
                {{"frequency_hz", seen->frequency_hz}, {"amplitude_cmH2O", seen->amplitude_cmH2O}}, seen->cycles));
        }
    return all;
}

Findings oscillation_off(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups)
        for (const auto kind : {kInsufflation, kExsufflation}) {
            if (!oscillates_by_order(group.nominal, kind) || group.whole.empty())
                continue;
            const auto seen = common_oscillation(group, kind);
            const auto wrong = wrong_with(basis, group, seen);
            if (wrong.empty())
                continue;
            auto found =
                finding(basis, group, "oscillation-off", Severity::caution,
                        {"an oscillation that is not as prescribed", "in " + word_of(kind) + " " + wrong,
                         "the unit's oscillation setting read back; hose and filter change the amplitude, never the "
                         "frequency"});
            if (seen)
                found.figures = {{"frequency_hz", seen->frequency_hz}, {"amplitude_cmH2O", seen->amplitude_cmH2O}};
            name_cycles(found, group.whole);
            all.push_back(found);
        }
    return all;
}

} // namespace zeroline::verification
