#include "analysis/signal/oscillations.hpp"

#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::signal {
namespace {

using Found = std::vector<std::optional<SteadyOscillation>>;

constexpr double kEnoughPeriods = 2.0;    // between 30 and 90 %: a phase that shows so many needs no other's help
constexpr std::size_t kEnoughPhases = 24; // more do not tell a slow one any better
constexpr double kAlikeLength = 2.0;      // times longer or shorter than most: not the same setting, told apart anyhow

double periods_of(const OscillatingPhase& phase, const std::optional<SteadyOscillation>& found)
{
    return found ? 0.6 * phase.interval.length_s() * found->frequency_hz : 0.0;
}

// Mean frequency of all phases that show an oscillation, the longer ones weighing more; none where no phase is in need
// of it, or where the phases disagree.
std::optional<SharedOscillation> pooled(const std::vector<OscillatingPhase>& phases, const Found& found)
{
    double weights = 0.0;
    SharedOscillation sum;
    bool in_need = false;
    std::vector<double> frequencies;
    for (std::size_t k = 0; k < phases.size(); ++k) {
        if (!found[k] || phases[k].cut) {
            continue;
        }
        const double periods = periods_of(phases[k], found[k]);
        const double weight = periods * periods * phases[k].interval.length_s();
        in_need = in_need || periods < kEnoughPeriods;
        frequencies.push_back(found[k]->frequency_hz);
        weights += weight;
        sum.frequency_hz += weight * found[k]->frequency_hz;
        sum.frequency_u_hz = std::hypot(sum.frequency_u_hz, weight * found[k]->frequency_u_hz);
    }
    if (!in_need || frequencies.size() < 2) {
        return std::nullopt;
    }
    const SharedOscillation mean{sum.frequency_hz / weights, sum.frequency_u_hz / weights};
    const auto [low, high] = std::minmax_element(frequencies.begin(), frequencies.end());
    return *high - *low < kAlikeFrequency * mean.frequency_hz ? std::optional(mean) : std::nullopt;
}

double usual_length_s(const std::vector<OscillatingPhase>& phases)
{
    std::vector<double> lengths_s;
    for (const OscillatingPhase& phase : phases) {
        if (!phase.cut) {
            lengths_s.push_back(phase.interval.length_s());
        }
    }
    return median(std::move(lengths_s)).value_or(0.0);
}

// A slow oscillation that some phase does not show, but all of them together do. Phases of like length only: what is
// tried is a number of frequencies that grows with how much longer one is than another.
std::optional<SharedOscillation> shared(const std::vector<OscillatingPhase>& phases, const Found& found,
                                        double noise_cmH2O, std::optional<double> seen_hz)
{
    std::vector<Samples> stretches;
    bool in_need = false;
    const double usual_s = usual_length_s(phases);
    for (std::size_t k = 0; k < phases.size() && stretches.size() < kEnoughPhases; ++k) {
        const double length_s = phases[k].interval.length_s();
        if (phases[k].cut || length_s > kAlikeLength * usual_s || kAlikeLength * length_s < usual_s) {
            continue;
        }
        in_need = in_need || periods_of(phases[k], found[k]) < kEnoughPeriods;
        const Interval part = phases[k].interval.part(0.3, 0.9);
        const SampleWindow bounds = samples_between(phases[k].around, part.from_s, part.to_s);
        if (bounds.size() < kFewestSamples) {
            return std::nullopt;
        }
        stretches.push_back(phases[k].around.part(bounds.first, bounds.last));
    }
    return in_need ? find_shared_oscillation(stretches, noise_cmH2O, seen_hz) : std::nullopt;
}

} // namespace

Found Oscillations::find_each(const std::vector<OscillatingPhase>& phases) const
{
    OscillationHint hint;
    hint.expected = expected_;
    hint.noise_cmH2O = noise_cmH2O_;
    if (known_) {
        hint.known_hz = known_->frequency_hz;
        hint.known_u_hz = known_->frequency_u_hz;
    }
    Found found;
    for (const OscillatingPhase& phase : phases) {
        found.push_back(find_oscillation(phase.around, phase.interval, hint));
        hint.start_hz = found.back() ? found.back()->frequency_hz : hint.start_hz;
    }
    return found;
}

Found Oscillations::find(const std::vector<OscillatingPhase>& phases)
{
    Found found = find_each(phases);
    const auto seen_hz = known_ ? std::optional(known_->frequency_hz) : std::nullopt;
    const auto together = shared(phases, found, noise_cmH2O_, seen_hz);
    const auto known = together ? together : known_ ? known_ : pooled(phases, found);
    if (!known || (known_ && known->frequency_hz == known_->frequency_hz)) {
        return found;
    }
    known_ = known;
    return find_each(phases);
}

} // namespace zeroline::signal
