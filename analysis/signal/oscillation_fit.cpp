#include "analysis/signal/oscillation_fit.hpp"

#include "analysis/signal/least_squares.hpp"
#include "analysis/signal/oscillation.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/signal/turner.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace zeroline::signal {
namespace {

constexpr double kPointsPerSecond = 130.0; // six a period of the fastest; all there are at 100 Hz
constexpr std::size_t kFewestPoints = 48;

// How far a drift beside the oscillation can be told from it: none, a slope, a bend.
int drift_order(double periods)
{
    if (periods < 1.5) {
        return 0;
    }
    return periods < 3.0 ? 1 : 2;
}

struct Columns {
    std::vector<double> sine, cosine;
};

Columns columns_of(const OscillationWindow& window, double frequency_hz)
{
    Columns columns{std::vector<double>(window.size()), std::vector<double>(window.size())};
    Turner turner(frequency_hz);
    for (std::size_t i = 0; i < window.size(); ++i) {
        turner.turn_to(window.time_s[i]);
        columns.sine[i] = turner.sine();
        columns.cosine[i] = turner.cosine();
    }
    return columns;
}

template <int N> void hold_unused(LeastSquares<N>& model, const OscillationWindow& window, double frequency_hz)
{
    for (int k = 3 + drift_order(frequency_hz * window.span_s); k < 5; ++k) {
        model.hold(k);
    }
}

std::array<double, 2> drift_at(const OscillationWindow& window, int order, double time_s)
{
    const double along = 2.0 * time_s / window.span_s;
    return {order >= 1 ? along : 0.0, order >= 2 ? along * along - 1.0 / 3.0 : 0.0};
}

} // namespace

OscillationWindow window_of(Samples samples)
{
    OscillationWindow window;
    window.span_s = samples.time_s.back() - samples.time_s.front();
    window.middle_s = (samples.time_s.front() + samples.time_s.back()) / 2.0;
    window.interval_s = mean_interval_s(samples);
    const auto most = std::max(kFewestPoints, static_cast<std::size_t>(std::ceil(kPointsPerSecond * window.span_s)));
    window.group = std::ceil(static_cast<double>(samples.size()) / static_cast<double>(most));
    OwnedSamples thinned = thinned_to(samples, most);
    window.time_s = std::move(thinned.time_s);
    window.pressure_cmH2O = std::move(thinned.pressure_cmH2O);
    window.level_cmH2O = window.pressure_cmH2O.front();
    for (std::size_t i = 0; i < window.size(); ++i) {
        window.time_s[i] -= window.middle_s;
        window.pressure_cmH2O[i] -= window.level_cmH2O;
    }
    const auto line = fit_line(window.time_s, window.pressure_cmH2O);
    window.left = window.pressure_cmH2O;
    for (std::size_t i = 0; line && i < window.size(); ++i) {
        window.left[i] -= line->at(window.time_s[i]);
    }
    window.about_line = dot(window.left, window.left);
    return window;
}

OscillationFit fit_at(const OscillationWindow& window, double frequency_hz)
{
    const Columns columns = columns_of(window, frequency_hz);
    const int order = drift_order(frequency_hz * window.span_s);
    LeastSquares<5> model;
    for (std::size_t i = 0; i < window.size(); ++i) {
        const auto drift = drift_at(window, order, window.time_s[i]);
        model.add({1.0, columns.sine[i], columns.cosine[i], drift[0], drift[1]}, window.pressure_cmH2O[i]);
    }
    hold_unused(model, window, frequency_hz);
    OscillationFit fit;
    fit.frequency_hz = frequency_hz;
    fit.solved = model.solve();
    if (fit.solved) {
        std::copy(model.solution().begin(), model.solution().end(), fit.linear.begin());
        fit.linear[0] += window.level_cmH2O;
        fit.left = model.left();
        fit.constant_factor = std::sqrt(model.variance_factor(0));
        fit.amplitude_factor = std::sqrt((model.variance_factor(1) + model.variance_factor(2)) / 2.0);
    }
    return fit;
}

namespace {

// One step of Gauss and Newton from a fit: by how much the frequency (as the angle at the window's ends) and the
// envelope should change, and what that leaves.
struct Step {
    double angle = 0.0;
    double decay = 0.0;
    double left = 0.0;
};

std::optional<Step> step_from(const OscillationWindow& window, const OscillationFit& fit, bool with_decay)
{
    const Columns columns = columns_of(window, fit.frequency_hz);
    const int order = drift_order(fit.frequency_hz * window.span_s);
    LeastSquares<7> model;
    for (std::size_t i = 0; i < window.size(); ++i) {
        const double along = 2.0 * window.time_s[i] / window.span_s;
        const auto drift = drift_at(window, order, window.time_s[i]);
        const double sine = columns.sine[i];
        const double cosine = columns.cosine[i];
        const double by_angle = fit.sine() * cosine - fit.cosine() * sine;
        const double swing = fit.sine() * sine + fit.cosine() * cosine;
        const double left = window.pressure_cmH2O[i] - (fit.constant() - window.level_cmH2O) - swing -
                            fit.linear[3] * drift[0] - fit.linear[4] * drift[1];
        model.add({1.0, sine, cosine, drift[0], drift[1], along * by_angle, with_decay ? -along * swing : 0.0}, left);
    }
    hold_unused(model, window, fit.frequency_hz);
    if (!with_decay) {
        model.hold(6);
    }
    if (!model.solve()) {
        return std::nullopt;
    }
    return Step{std::clamp(model.solution()[5], -1.0, 1.0), model.solution()[6], model.left()};
}

} // namespace

OscillationFit refined(const OscillationWindow& window, double frequency_hz)
{
    constexpr int kMostRounds = 12;
    constexpr double kNothingGained = 1e-4; // of what is left: far below what its uncertainty tells
    OscillationFit best = fit_at(window, frequency_hz);
    for (int round = 0; round < kMostRounds && best.solved; ++round) {
        const auto step = step_from(window, best, false);
        if (!step || best.left - step->left < kNothingGained * best.left) {
            break;
        }
        const double next_hz = best.frequency_hz + step->angle / (std::numbers::pi * window.span_s);
        if (!(next_hz > 0.2 * kLowestOscillation_hz) || next_hz > 1.5 * kHighestOscillation_hz) {
            break;
        }
        const OscillationFit next = fit_at(window, next_hz);
        if (!next.solved || !(next.left < best.left)) {
            break;
        }
        best = next;
    }
    return best;
}

Decay decay_of(const OscillationWindow& window, const OscillationFit& fit)
{
    const auto step = step_from(window, fit, true);
    return step ? Decay{step->decay, step->left} : Decay{0.0, fit.left};
}

double left_by_tail(const OscillationWindow& window)
{
    constexpr double kShortest = 0.0625; // of the window's length; the longest is the whole of it
    constexpr int kTrials = 16;          // time constants a fifth apart
    double least = window.about_line;
    for (int k = 0; k < kTrials; ++k) {
        const double share = std::pow(kShortest, static_cast<double>(k) / (kTrials - 1));
        LeastSquares<3> model;
        for (std::size_t i = 0; i < window.size(); ++i) {
            const double along = (window.time_s[i] - window.time_s.front()) / window.span_s;
            model.add({1.0, along - 0.5, std::exp(-along / share)}, window.left[i]);
        }
        least = model.solve() ? std::min(least, model.left()) : least;
    }
    return least;
}

double left_by_bend(const OscillationWindow& window)
{
    LeastSquares<4> model;
    for (std::size_t i = 0; i < window.size(); ++i) {
        const double along = 2.0 * window.time_s[i] / window.span_s;
        model.add({1.0, along, along * along, along * along * along}, window.left[i]);
    }
    return model.solve() ? model.left() : window.about_line;
}

BesideSettling::BesideSettling(const OscillationWindow& window) : span_s_(window.span_s), beside_(rows_of(window), 1) {}

std::vector<BesideSettling::Beside::Row> BesideSettling::rows_of(const OscillationWindow& window)
{
    constexpr std::array kTails{0.06, 0.12, 0.2}; // time constants, in shares of the window
    std::vector<Beside::Row> rows;
    rows.reserve(window.size());
    for (std::size_t i = 0; i < window.size(); ++i) {
        const double along = 0.5 + window.time_s[i] / window.span_s;
        rows.push_back({window.time_s[i], window.pressure_cmH2O[i], {1.0, along}});
        for (std::size_t k = 0; k < kTails.size(); ++k) {
            rows.back().column[k + 2] = std::exp(-along / kTails[k]);
        }
    }
    return rows;
}

double BesideSettling::left(double frequency_hz) const
{
    constexpr double kSlopeTold_periods = 1.5; // with fewer a slope explains what an oscillation does
    const auto wave = beside_.wave(Turner(frequency_hz));
    const auto left_beside = [&](std::initializer_list<std::size_t> columns) {
        const auto fit = beside_.fit(wave, columns);
        return fit.solved ? fit.left : beside_.left({0});
    };
    double least = std::min({left_beside({0}), left_beside({0, 2}), left_beside({0, 3}), left_beside({0, 4})});
    if (frequency_hz * span_s_ >= kSlopeTold_periods) {
        least = std::min(least, left_beside({0, 1}));
    }
    return least;
}

} // namespace zeroline::signal
