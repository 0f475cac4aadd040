#include "analysis/signal/oscillation.hpp"

#include "analysis/signal/linear_model.hpp"
#include "analysis/signal/spectrum.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/signal/thinning.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kTwoPi = 2.0 * std::numbers::pi;
constexpr double kPointsPerSecond = 130.0; // six a period of the fastest; all there are at 100 Hz
constexpr double kShare = 0.75;            // of the variance about a line that one must explain
constexpr double kShareExpected = 0.25;    // ... where one is prescribed
constexpr double kRoughly = 0.5;           // of that share, before frequency and drift are fitted
constexpr double kLeastGain = 40.0;     // variance explained over that left: noise alone gives 20 once in 10,000 phases
constexpr double kTailsPart = 0.7;      // of what it explains, where an exponential explains that much as well ...
constexpr double kBetterThanTail = 0.3; // ... it must leave no more than this part of what the exponential leaves
constexpr double kPlainPeriods = 1.8;   // fewer may be a bend ...
constexpr double kBetterThanBend = 0.3; // ... unless they leave no more than this part of what that leaves
constexpr double kKnown = 1.3;          // ... or hardly more, where the frequency is known
constexpr double kSteady = 0.5;         // envelope's change over the window, as a natural logarithm, at most
constexpr double kLeastPeriods = 0.5;

// The mean over a group of samples lowers a sinusoid by this.
double lowered_by(double frequency_hz, double group, double interval_s)
{
    const double angle = std::numbers::pi * frequency_hz * interval_s;
    const double one = std::sin(angle);
    return group > 1.0 && one > 1e-9 ? std::sin(group * angle) / (group * one) : 1.0;
}

struct Window {
    OwnedSamples points;
    double middle_s = 0.0;
    double span_s = 0.0;
    double group = 1.0;      // samples that one point averages over
    double interval_s = 0.0; // between samples
};

Window window_of(Samples samples)
{
    Window window;
    window.span_s = samples.time_s.back() - samples.time_s.front();
    window.middle_s = (samples.time_s.front() + samples.time_s.back()) / 2.0;
    const auto most = static_cast<std::size_t>(std::max(48.0, std::ceil(kPointsPerSecond * window.span_s)));
    window.points = thinned_to(samples, most);
    const double group = std::ceil(static_cast<double>(samples.size()) / static_cast<double>(most));
    window.group = group;
    window.interval_s = mean_interval_s(samples);
    return window;
}

// How far a drift beside the oscillation can be told from it: none, a slope, a bend.
int drift_order(double periods)
{
    if (periods < 1.5) {
        return 0;
    }
    return periods < 3.0 ? 1 : 2;
}

// Least squares at a frequency and a damping: constant, sine, cosine, slope and bend.
struct Trial {
    double frequency_hz = 0.0;
    double damping = 0.0; // of the envelope over half the window
    std::array<double, 5> linear{};
    double left = 0.0;
    double constant_factor = 0.0;
    double amplitude_factor = 0.0;
    bool solved = false;

    [[nodiscard]] double constant() const { return linear[0]; }
    [[nodiscard]] double sine() const { return linear[1]; }
    [[nodiscard]] double cosine() const { return linear[2]; }
};

// What each parameter does at one time. A drift that cannot be told is held at nothing.
std::array<double, 5> columns_at(const Window& window, const Trial& trial, double time)
{
    const double along = 2.0 * time / window.span_s;
    const double angle = kTwoPi * trial.frequency_hz * time;
    const double envelope = trial.damping != 0.0 ? std::exp(-trial.damping * along) : 1.0;
    const int order = drift_order(trial.frequency_hz * window.span_s);
    return {1.0, envelope * std::sin(angle), envelope * std::cos(angle), order >= 1 ? along : 0.0,
            order >= 2 ? along * along - 1.0 / 3.0 : 0.0};
}

template <std::size_t N> void hold_unused(LinearModel<N>& model, const Window& window, double frequency_hz)
{
    const int order = drift_order(frequency_hz * window.span_s);
    for (std::size_t k = 3 + static_cast<std::size_t>(order); k < 5; ++k) {
        typename LinearModel<N>::Row row{};
        row[k] = 1.0;
        model.add(row, 0.0);
    }
}

Trial trial_at(const Window& window, double frequency_hz, double damping)
{
    Trial trial;
    trial.frequency_hz = frequency_hz;
    trial.damping = damping;
    LinearModel<5> model;
    const Samples points = window.points.view();
    const double level = points.pressure_cmH2O.front();
    for (std::size_t i = 0; i < points.size(); ++i) {
        model.add(columns_at(window, trial, points.time_s[i] - window.middle_s), points.pressure_cmH2O[i] - level);
    }
    hold_unused(model, window, frequency_hz);
    trial.solved = model.solve();
    if (trial.solved) {
        trial.linear = model.solution();
        trial.linear[0] += level;
        trial.left = model.left();
        trial.constant_factor = std::sqrt(model.variance_factor(0));
        trial.amplitude_factor = std::sqrt((model.variance_factor(1) + model.variance_factor(2)) / 2.0);
    }
    return trial;
}

// One step of Gauss and Newton: by how much frequency (as the angle at the window's ends) and damping should change.
std::optional<std::array<double, 2>> improvement(const Window& window, const Trial& at, bool damped)
{
    const Samples points = window.points.view();
    LinearModel<7> model;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double time = points.time_s[i] - window.middle_s;
        const double along = 2.0 * time / window.span_s;
        const auto columns = columns_at(window, at, time);
        double left = points.pressure_cmH2O[i];
        for (std::size_t k = 0; k < columns.size(); ++k) {
            left -= at.linear[k] * columns[k];
        }
        const double by_angle = at.sine() * columns[2] - at.cosine() * columns[1];
        const double swing = at.sine() * columns[1] + at.cosine() * columns[2];
        model.add({columns[0], columns[1], columns[2], columns[3], columns[4], along * by_angle,
                   damped ? -along * swing : 0.0},
                  left);
    }
    hold_unused(model, window, at.frequency_hz);
    if (!damped) {
        model.add({0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0}, 0.0);
    }
    if (!model.solve()) {
        return std::nullopt;
    }
    return std::array<double, 2>{std::clamp(model.solution()[5], -1.0, 1.0), model.solution()[6]};
}

Trial refined(const Window& window, double frequency_hz, bool damped)
{
    Trial best = trial_at(window, frequency_hz, 0.0);
    for (int round = 0; round < 12 && best.solved; ++round) {
        const auto step = improvement(window, best, damped);
        if (!step) {
            break;
        }
        const double next_hz = best.frequency_hz + (*step)[0] / (std::numbers::pi * window.span_s);
        const double next_damping = damped ? std::clamp(best.damping + (*step)[1], -3.0, 3.0) : 0.0;
        if (!(next_hz > 0.2 * kLowestOscillation_hz) || next_hz > 1.5 * kHighestOscillation_hz) {
            break;
        }
        const Trial next = trial_at(window, next_hz, next_damping);
        if (!next.solved || !(next.left < best.left)) {
            break;
        }
        const bool settled = best.left - next.left < 1e-9 * best.left;
        best = next;
        if (settled) {
            break;
        }
    }
    return best;
}

struct AboutLine {
    std::vector<double> values;
    double sum_of_squares = 0.0;
};

AboutLine about_line(const Window& window)
{
    const Samples points = window.points.view();
    AboutLine result;
    const auto line = fit_line(points.time_s, points.pressure_cmH2O);
    for (std::size_t i = 0; i < points.size(); ++i) {
        result.values.push_back(points.pressure_cmH2O[i] - (line ? line->at(points.time_s[i]) : 0.0));
        result.sum_of_squares += result.values.back() * result.values.back();
    }
    return result;
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

// What the best exponential (or bend) beside a constant and a slope leaves.
double left_by_tail(const Window& window)
{
    const Samples points = window.points.view();
    const double level = points.pressure_cmH2O.back();
    double least = -1.0;
    for (const double share : {0.06, 0.12, 0.25, 0.5, 1.0}) {
        LinearModel<3> model;
        for (std::size_t i = 0; i < points.size(); ++i) {
            const double along = (points.time_s[i] - points.time_s.front()) / window.span_s;
            model.add({1.0, along - 0.5, std::exp(-along / share)}, points.pressure_cmH2O[i] - level);
        }
        if (model.solve() && (least < 0.0 || model.left() < least)) {
            least = model.left();
        }
    }
    return least;
}

bool stands_clear(const Trial& trial, double about_line, std::size_t points, bool expected)
{
    const double explained = about_line - trial.left;
    const double free = std::max(1.0, static_cast<double>(points) - 5.0);
    return explained >= (expected ? kShareExpected : kShare) * about_line &&
           explained >= kLeastGain * trial.left / free;
}

// What a bend of third degree leaves: a settling phase may look like less than two periods of anything.
double left_by_bend(const Window& window)
{
    const Samples points = window.points.view();
    const auto bend = fit_polynomial(points.time_s, points.pressure_cmH2O, 3);
    const auto free = static_cast<double>(points.size()) - 4.0;
    return bend && free > 0.0 ? bend->residual_deviation * bend->residual_deviation * free : 0.0;
}

std::optional<Trial> steady_trial(const Window& window, const OscillationHint& hint)
{
    const AboutLine about = about_line(window);
    const double interval_s = mean_interval_s(window.points.view());
    const Strongest strongest = strongest_of(about, interval_s);
    const double start_hz = hint.known_hz.value_or(strongest.hz);
    const bool hopeless = strongest.share < kRoughly * (hint.expected ? kShareExpected : kShare);
    if (!(start_hz > 0.0) || hopeless) {
        return std::nullopt;
    }
    const Trial trial = hint.known_hz ? trial_at(window, *hint.known_hz, 0.0) : refined(window, start_hz, false);
    const double periods = trial.frequency_hz * window.span_s;
    if (!trial.solved || trial.frequency_hz < kLowestOscillation_hz || trial.frequency_hz > kHighestOscillation_hz ||
        periods < std::max(kLeastPeriods * 0.97, hint.fewest_periods)) {
        return std::nullopt;
    }
    const double left_by_a_tail = left_by_tail(window);
    // Where other phases show that frequency, it need not be proven against anything else that bends.
    const double better_than_tail = hint.known_hz ? kKnown : kBetterThanTail;
    const double better_than_bend = hint.known_hz ? kKnown : kBetterThanBend;
    const bool may_be_tail = about.sum_of_squares - left_by_a_tail > kTailsPart * (about.sum_of_squares - trial.left) &&
                             trial.left > better_than_tail * left_by_a_tail;
    if (!stands_clear(trial, about.sum_of_squares, about.values.size(), hint.expected) || may_be_tail) {
        return std::nullopt;
    }
    if (!hint.expected && periods < kPlainPeriods && trial.left > better_than_bend * left_by_bend(window)) {
        return std::nullopt;
    }
    const Trial damped = refined(window, trial.frequency_hz, true);
    const bool decays = damped.solved && damped.left < 0.8 * trial.left && std::abs(damped.damping) > kSteady / 2.0;
    return decays ? std::nullopt : std::optional<Trial>(trial);
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
    const Window window = window_of(samples.part(bounds.first, bounds.last));
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
