#include "analysis/signal/oscillation.hpp"

#include "analysis/signal/oscillation_trial.hpp"
#include "analysis/signal/spectrum.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/signal/thinning.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kTwoPi = 2.0 * std::numbers::pi;
constexpr double kShare = 0.75;         // of the variance about a line that one must explain
constexpr double kShareExpected = 0.25; // ... where one is prescribed
constexpr double kRoughly = 0.5;        // of that share, before frequency and drift are fitted
constexpr double kLeastGain = 40.0;     // variance explained over that left: noise alone gives 20 once in 10,000 phases
constexpr double kTailsPart = 0.7;      // of what it explains, where an exponential explains that much as well ...
constexpr double kBetterThanTail = 0.3; // ... it must leave no more than this part of what the exponential leaves
constexpr double kPlainPeriods = 1.8;   // fewer may be a bend ...
constexpr double kBetterThanBend = 0.3; // ... unless they leave no more than this part of what that leaves
constexpr double kKnown = 1.3;          // ... or hardly more, where the frequency is known
constexpr double kMoreThanTail = 0.5;   // with a known one beside it, no more of what the tail alone leaves
constexpr double kSteady = 0.5;         // envelope's change over the window, as a natural logarithm, at most
constexpr double kLeastPeriods = 0.5;

// The mean over a group of samples lowers a sinusoid by this.
double lowered_by(double frequency_hz, double group, double interval_s)
{
    const double angle = std::numbers::pi * frequency_hz * interval_s;
    const double one = std::sin(angle);
    return group > 1.0 && one > 1e-9 ? std::sin(group * angle) / (group * one) : 1.0;
}

struct Strongest {
    double hz = 0.0;
    double share = 0.0; // of the sum of squares that it explains, roughly
};

Strongest strongest_of(const AboutLine& about, double interval_s)
{
    const std::vector<double>& values = about.values;
    const std::size_t size = power_of_two_from(2 * values.size());
    const auto bins = transform(values, size);
    const double bin_hz = 1.0 / (interval_s * static_cast<double>(size));
    double best_hz = 0.0;
    double best_power = 0.0;
    for (std::size_t k = 1; k < bins.size(); ++k) {
        const double hz = bin_hz * static_cast<double>(k);
        const double power = std::norm(bins[k]);
        if (hz >= 0.5 * kLowestOscillation_hz && hz <= 1.1 * kHighestOscillation_hz && power > best_power) {
            best_power = power;
            best_hz = hz;
        }
    }
    const double all = 0.5 * static_cast<double>(values.size()) * about.sum_of_squares;
    return {best_hz, all > 0.0 ? best_power / all : 0.0};
}

bool stands_clear(double left, double about_line, std::size_t points, bool expected)
{
    const double explained = about_line - left;
    const double free = std::max(1.0, static_cast<double>(points) - 5.0);
    return explained >= (expected ? kShareExpected : kShare) * about_line && explained >= kLeastGain * left / free;
}

std::optional<OscillationTrial> steady_trial(const OscillationWindow& window, const OscillationHint& hint)
{
    const AboutLine about = about_line(window);
    const double interval_s = mean_interval_s(window.points.view());
    const Strongest strongest = strongest_of(about, interval_s);
    const double start_hz = hint.known_hz.value_or(strongest.hz);
    const bool hopeless = strongest.share < kRoughly * (hint.expected ? kShareExpected : kShare);
    if (!(start_hz > 0.0) || (hopeless && !hint.known_hz)) {
        return std::nullopt;
    }
    const OscillationTrial trial =
        hint.known_hz ? trial_at(window, *hint.known_hz, 0.0) : refined(window, start_hz, false);
    const double periods = trial.frequency_hz * window.span_s;
    if (!trial.solved || trial.frequency_hz < kLowestOscillation_hz || trial.frequency_hz > kHighestOscillation_hz ||
        periods < std::max(kLeastPeriods * 0.97, hint.fewest_periods)) {
        return std::nullopt;
    }
    const double left_by_a_tail = left_by_tail(window);
    // Where other phases show that frequency, it need not be proven against anything else that bends, and an edge that
    // still settles may lie beneath it.
    const double better_than_tail = hint.known_hz ? kKnown : kBetterThanTail;
    const double better_than_bend = hint.known_hz ? kKnown : kBetterThanBend;
    const double beside_tail =
        hint.known_hz ? std::min(trial.left, left_beside_tail(window, trial.frequency_hz)) : trial.left;
    const bool no_tail = trial.left <= better_than_tail * left_by_a_tail ||
                         (hint.known_hz && beside_tail < kMoreThanTail * left_by_a_tail);
    const bool may_be_tail =
        !no_tail && about.sum_of_squares - left_by_a_tail > kTailsPart * (about.sum_of_squares - beside_tail);
    if (!stands_clear(beside_tail, about.sum_of_squares, about.values.size(), hint.expected) || may_be_tail) {
        return std::nullopt;
    }
    if (!hint.expected && periods < kPlainPeriods && beside_tail > better_than_bend * left_by_bend(window)) {
        return std::nullopt;
    }
    // A frequency that is known need not be the best for this phase: that alone is no decay.
    const double left_if_steady =
        hint.known_hz ? std::min(beside_tail, refined(window, trial.frequency_hz, false).left) : trial.left;
    const OscillationTrial damped = refined(window, trial.frequency_hz, true);
    const bool decays = damped.solved && damped.left < 0.8 * left_if_steady && std::abs(damped.damping) > kSteady / 2.0;
    return decays ? std::nullopt : std::optional<OscillationTrial>(trial);
}

} // namespace

double SteadyOscillation::amplitude_cmH2O() const { return std::hypot(sine_cmH2O, cosine_cmH2O); }

double SteadyOscillation::at(double time_s) const
{
    const double angle = kTwoPi * frequency_hz * (time_s - reference_s);
    return sine_cmH2O * std::sin(angle) + cosine_cmH2O * std::cos(angle);
}

std::optional<SteadyOscillation> find_oscillation(Samples samples, Interval phase, const OscillationHint& hint)
{
    const Interval part = phase.part(0.3, 0.9);
    const SampleWindow bounds = samples_between(samples, part.from_s, part.to_s);
    if (bounds.size() < 8) {
        return std::nullopt;
    }
    const OscillationWindow window = window_of(samples.part(bounds.first, bounds.last));
    const auto trial = steady_trial(window, hint);
    if (!trial) {
        return std::nullopt;
    }
    const double lowered = lowered_by(trial->frequency_hz, window.group, window.interval_s);
    SteadyOscillation found;
    found.frequency_hz = trial->frequency_hz;
    found.sine_cmH2O = trial->sine() / lowered;
    found.cosine_cmH2O = trial->cosine() / lowered;
    found.reference_s = window.middle_s;
    found.constant_cmH2O = trial->constant();
    const auto count = static_cast<double>(window.points.size());
    found.dof = std::max(1.0, count - 4.0);
    const double noise = std::sqrt(trial->left / found.dof);
    found.constant_u_cmH2O = noise * trial->constant_factor;
    found.amplitude_u_cmH2O = noise * trial->amplitude_factor / lowered;
    // Least squares of a sinusoid in white noise (the Cramer-Rao bound for many samples).
    const double own_u_hz =
        std::sqrt(6.0 / count) * noise /
        (std::numbers::pi * window.span_s * std::max(1e-9, std::hypot(trial->sine(), trial->cosine())));
    found.frequency_u_hz = hint.known_hz ? hint.known_u_hz : own_u_hz;
    return found;
}

bool would_show(Samples samples, Interval phase, double frequency_hz)
{
    constexpr double kSamplesAPeriod = 2.5;
    const Interval part = phase.part(0.3, 0.9);
    const SampleWindow bounds = samples_between(samples, part.from_s, part.to_s);
    return bounds.size() >= 8 && part.length_s() * frequency_hz >= kLeastPeriods &&
           frequency_hz * mean_interval_s(samples.part(bounds.first, bounds.last)) * kSamplesAPeriod <= 1.0;
}

std::optional<Interval> whole_periods(Interval phase, double frequency_hz)
{
    const Interval part = phase.part(0.3, 0.9);
    const double periods = std::floor(part.length_s() * frequency_hz + 1e-9);
    if (periods < 1.0) {
        return std::nullopt;
    }
    return Interval{part.to_s - periods / frequency_hz, part.to_s};
}

} // namespace zeroline::signal
