#include "analysis/signal/oscillation_fit.hpp"

#include "analysis/signal/least_squares.hpp"
#include "analysis/signal/oscillation.hpp"
#include "analysis/signal/statistics.hpp"

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
    constexpr double kSettled = 1e-4; // of what is left: far below what its uncertainty tells
    OscillationFit best = fit_at(window, frequency_hz);
    for (int round = 0; round < kMostRounds && best.solved; ++round) {
        const auto step = step_from(window, best, false);
        if (!step || best.left - step->left < kSettled * best.left) {
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

BesideSettling::BesideSettling(const OscillationWindow& window) : span_s_(window.span_s)
{
    constexpr std::array kTails{0.06, 0.12, 0.2}; // time constants, in shares of the window
    const double mean_cmH2O = mean(window.pressure_cmH2O).value_or(0.0);
    for (std::size_t i = 0; i < window.size(); ++i) {
        const double along = 0.5 + window.time_s[i] / span_s_;
        rows_.push_back({window.time_s[i], window.pressure_cmH2O[i] - mean_cmH2O, {along}});
        for (std::size_t k = 0; k < kTails.size(); ++k) {
            rows_.back().column[k + 1] = std::exp(-along / kTails[k]);
        }
        plain_ += rows_.back().value * rows_.back().value;
    }
    for (std::size_t column = 0; column < kColumns; ++column) {
        make_unit(column);
    }
}

void BesideSettling::make_unit(std::size_t column)
{
    double sum = 0.0;
    for (const Row& row : rows_) {
        sum += row.column[column];
    }
    double squares = 0.0;
    for (Row& row : rows_) {
        row.column[column] -= sum / static_cast<double>(rows_.size());
        squares += row.column[column] * row.column[column];
    }
    for (Row& row : rows_) {
        row.column[column] *= squares > 0.0 ? 1.0 / std::sqrt(squares) : 0.0;
        share_[column] += row.column[column] * row.value;
    }
}

double BesideSettling::left(double frequency_hz) const
{
    constexpr double kSlopeTold_periods = 1.5; // with fewer a slope explains what an oscillation does
    struct Along {
        double sine = 0.0, cosine = 0.0;
    };
    std::array<Along, kColumns> along{};
    Along sum, with_value;
    double ss = 0.0, sc = 0.0, cc = 0.0;
    Turner turner(frequency_hz);
    for (const Row& row : rows_) {
        turner.turn_to(row.time_s);
        const double s = turner.sine();
        const double c = turner.cosine();
        sum = {sum.sine + s, sum.cosine + c};
        with_value = {with_value.sine + s * row.value, with_value.cosine + c * row.value};
        for (std::size_t k = 0; k < kColumns; ++k) {
            along[k] = {along[k].sine + s * row.column[k], along[k].cosine + c * row.column[k]};
        }
        ss += s * s;
        sc += s * c;
        cc += c * c;
    }
    const auto n = static_cast<double>(rows_.size());
    const auto left_beside = [&](Along unit, double share) {
        const double own_ss = ss - sum.sine * sum.sine / n - unit.sine * unit.sine;
        const double own_sc = sc - sum.sine * sum.cosine / n - unit.sine * unit.cosine;
        const double own_cc = cc - sum.cosine * sum.cosine / n - unit.cosine * unit.cosine;
        const double sy = with_value.sine - unit.sine * share;
        const double cy = with_value.cosine - unit.cosine * share;
        const double determinant = own_ss * own_cc - own_sc * own_sc;
        const double explained = own_cc * sy * sy - 2.0 * own_sc * sy * cy + own_ss * cy * cy;
        constexpr double kIndependent = 1e-9;
        return determinant > kIndependent * n * n ? plain_ - share * share - explained / determinant : plain_;
    };
    double least = left_beside({}, 0.0);
    const bool slope_told = frequency_hz * span_s_ >= kSlopeTold_periods;
    for (std::size_t k = slope_told ? 0 : 1; k < kColumns; ++k) {
        least = std::min(least, left_beside(along[k], share_[k]));
    }
    return std::max(0.0, least);
}

} // namespace zeroline::signal
