#include "analysis/signal/oscillation_trial.hpp"

#include "analysis/signal/linear_model.hpp"
#include "analysis/signal/oscillation.hpp"
#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace zeroline::signal {
namespace {

constexpr double kTwoPi = 2.0 * std::numbers::pi;
constexpr double kPointsPerSecond = 130.0; // six a period of the fastest; all there are at 100 Hz

// How far a drift beside the oscillation can be told from it: none, a slope, a bend.
int drift_order(double periods)
{
    if (periods < 1.5) {
        return 0;
    }
    return periods < 3.0 ? 1 : 2;
}

// What each parameter does at one time. A drift that cannot be told is held at nothing.
std::array<double, 5> columns_at(const OscillationWindow& window, const OscillationTrial& trial, double time)
{
    const double along = 2.0 * time / window.span_s;
    const double angle = kTwoPi * trial.frequency_hz * time;
    const double envelope = trial.damping != 0.0 ? std::exp(-trial.damping * along) : 1.0;
    const int order = drift_order(trial.frequency_hz * window.span_s);
    return {1.0, envelope * std::sin(angle), envelope * std::cos(angle), order >= 1 ? along : 0.0,
            order >= 2 ? along * along - 1.0 / 3.0 : 0.0};
}

template <std::size_t N> void hold_unused(LinearModel<N>& model, const OscillationWindow& window, double frequency_hz)
{
    const int order = drift_order(frequency_hz * window.span_s);
    for (std::size_t k = 3 + static_cast<std::size_t>(order); k < 5; ++k) {
        typename LinearModel<N>::Row row{};
        row[k] = 1.0;
        model.add(row, 0.0);
    }
}

} // namespace

OscillationWindow window_of(Samples samples)
{
    OscillationWindow window;
    window.span_s = samples.time_s.back() - samples.time_s.front();
    window.middle_s = (samples.time_s.front() + samples.time_s.back()) / 2.0;
    const auto most = static_cast<std::size_t>(std::max(48.0, std::ceil(kPointsPerSecond * window.span_s)));
    window.points = thinned_to(samples, most);
    const double group = std::ceil(static_cast<double>(samples.size()) / static_cast<double>(most));
    window.group = group;
    window.interval_s = mean_interval_s(samples);
    return window;
}

OscillationTrial trial_at(const OscillationWindow& window, double frequency_hz, double damping)
{
    OscillationTrial trial;
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

namespace {

// One step of Gauss and Newton: by how much frequency (as the angle at the window's ends) and damping should change.
std::optional<std::array<double, 2>> improvement(const OscillationWindow& window, const OscillationTrial& at,
                                                 bool damped)
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

} // namespace

OscillationTrial refined(const OscillationWindow& window, double frequency_hz, bool damped)
{
    OscillationTrial best = trial_at(window, frequency_hz, 0.0);
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
        const OscillationTrial next = trial_at(window, next_hz, next_damping);
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

AboutLine about_line(const OscillationWindow& window)
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

double left_by_tail(const OscillationWindow& window, int trials)
{
    constexpr double kShortest = 0.0625; // of the window's length; the longest is the whole of it
    const Samples points = window.points.view();
    const double level = points.pressure_cmH2O.back();
    double least = -1.0;
    for (int k = 0; k < trials; ++k) {
        const double share = std::pow(kShortest, static_cast<double>(k) / (trials - 1));
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

double left_by_bend(const OscillationWindow& window)
{
    const Samples points = window.points.view();
    const auto bend = fit_polynomial(points.time_s, points.pressure_cmH2O, 3);
    const auto free = static_cast<double>(points.size()) - 4.0;
    return bend && free > 0.0 ? bend->residual_deviation * bend->residual_deviation * free : 0.0;
}

double left_beside_tail(const OscillationWindow& window, double frequency_hz)
{
    const Samples points = window.points.view();
    const double level = points.pressure_cmH2O.back();
    double least = trial_at(window, frequency_hz, 0.0).left;
    for (const double share : {0.06, 0.12, 0.2}) {
        LinearModel<4> model;
        for (std::size_t i = 0; i < points.size(); ++i) {
            const double from_start_s = points.time_s[i] - points.time_s.front();
            const double angle = kTwoPi * frequency_hz * (points.time_s[i] - window.middle_s);
            model.add({1.0, std::sin(angle), std::cos(angle), std::exp(-from_start_s / (share * window.span_s))},
                      points.pressure_cmH2O[i] - level);
        }
        least = model.solve() ? std::min(least, model.left()) : least;
    }
    return least;
}

} // namespace zeroline::signal
