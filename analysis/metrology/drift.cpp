#include "analysis/metrology/drift.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

namespace zeroline::metrology {

namespace {

// Mean and standard deviation of the range of two normal values (ASTM MNL 7 constants, n = 2, in closed form).
const double kD2 = 2.0 / std::sqrt(std::numbers::pi);
const double kD3 = std::sqrt(2.0 - 4.0 / std::numbers::pi);

constexpr int kSearchSteps = 2000; // a visit interval is looked through finer than a day

std::vector<std::size_t> beyond(std::span<const double> values, double lower, double upper)
{
    std::vector<std::size_t> which;
    for (std::size_t i = 0; i < values.size(); ++i)
        if (values[i] < lower || values[i] > upper)
            which.push_back(i);
    return which;
}

double mean_of(std::span<const double> values)
{
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

struct RunRule {
    std::size_t needed, of;
    double sigmas;
    const char* words;
};

constexpr std::array kRunRules{RunRule{2, 3, 2.0, "2 of 3 beyond 2 sigma"}, RunRule{4, 5, 1.0, "4 of 5 beyond 1 sigma"},
                               RunRule{8, 8, 0.0, "8 in a row on one side"}};

bool completes(const RunRule& rule, std::span<const double> values, std::size_t at, double centre, double sigma)
{
    const auto beyond_on = [&](double side, double value) { return side * (value - centre) > rule.sigmas * sigma; };
    for (const double side : {1.0, -1.0}) {
        const auto last = values.subspan(at + 1 - rule.of, rule.of);
        const auto beyond =
            std::count_if(last.begin(), last.end(), [&](double value) { return beyond_on(side, value); });
        if (beyond_on(side, values[at]) && static_cast<std::size_t>(beyond) >= rule.needed)
            return true;
    }
    return false;
}

std::vector<Run> runs_in(std::span<const double> values, double centre, double sigma)
{
    std::vector<Run> runs;
    for (const auto& rule : kRunRules)
        for (std::size_t at = rule.of - 1; at < values.size(); ++at)
            if (completes(rule, values, at, centre, sigma))
                runs.push_back({at, rule.words});
    return runs;
}

struct Weighted {
    double sum = 0.0, x_mean = 0.0, y_mean = 0.0, s_xx = 0.0, s_xy = 0.0;
};

Weighted weighted_sums(std::span<const double> x, std::span<const double> y, std::span<const double> weights)
{
    Weighted w;
    for (std::size_t i = 0; i < x.size(); ++i) {
        w.sum += weights[i];
        w.x_mean += weights[i] * x[i];
        w.y_mean += weights[i] * y[i];
    }
    w.x_mean /= w.sum;
    w.y_mean /= w.sum;
    for (std::size_t i = 0; i < x.size(); ++i) {
        w.s_xx += weights[i] * (x[i] - w.x_mean) * (x[i] - w.x_mean);
        w.s_xy += weights[i] * (x[i] - w.x_mean) * (y[i] - w.y_mean);
    }
    return w;
}

std::vector<double> weights_of(std::span<const double> u, std::size_t n)
{
    std::vector<double> weights(n, 1.0);
    for (std::size_t i = 0; i < u.size(); ++i)
        weights[i] = 1.0 / (u[i] * u[i]);
    return weights;
}

double chi_squared(const WeightedLine& line, std::span<const double> x, std::span<const double> y,
                   std::span<const double> weights)
{
    double sum = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i)
        sum += weights[i] * (y[i] - line.at(x[i])) * (y[i] - line.at(x[i]));
    return sum;
}

} // namespace

std::optional<IndividualsChart> individuals_chart(std::span<const double> values)
{
    if (values.size() < 2)
        return std::nullopt;
    std::vector<double> ranges;
    for (std::size_t i = 1; i < values.size(); ++i)
        ranges.push_back(std::abs(values[i] - values[i - 1]));
    IndividualsChart chart;
    chart.centre = mean_of(values);
    chart.mean_moving_range = mean_of(ranges);
    const double reach = 3.0 * chart.mean_moving_range / kD2;
    chart.lower = chart.centre - reach;
    chart.upper = chart.centre + reach;
    chart.moving_range_upper = (1.0 + 3.0 * kD3 / kD2) * chart.mean_moving_range;
    chart.outside = beyond(values, chart.lower, chart.upper);
    chart.runs = runs_in(values, chart.centre, chart.mean_moving_range / kD2);
    return chart;
}

std::optional<WeightedLine> fit_line(std::span<const double> x, std::span<const double> y, std::span<const double> u)
{
    if (x.size() < 3)
        return std::nullopt;
    const auto weights = weights_of(u, x.size());
    const auto w = weighted_sums(x, y, weights);
    if (!(w.s_xx > 0.0))
        return std::nullopt;
    WeightedLine line;
    line.slope = w.s_xy / w.s_xx;
    line.intercept = w.y_mean - line.slope * w.x_mean;
    line.dof = static_cast<double>(x.size()) - 2.0;
    line.scatter = std::sqrt(chi_squared(line, x, y, weights) / line.dof);
    if (!u.empty())
        line.scatter = std::max(1.0, line.scatter);
    const double variance = line.scatter * line.scatter;
    line.slope_u = std::sqrt(variance / w.s_xx);
    line.intercept_u = std::sqrt(variance * (1.0 / w.sum + w.x_mean * w.x_mean / w.s_xx));
    line.covariance = -variance * w.x_mean / w.s_xx;
    line.reading_u = std::sqrt(variance * static_cast<double>(x.size()) / w.sum);
    return line;
}

Prediction WeightedLine::predict(double x, double coverage) const
{
    const std::array<double, 2> sensitivity{1.0, x};
    const std::array<double, 4> spread{intercept_u * intercept_u, covariance, covariance, slope_u * slope_u};
    const double line_u = propagated_uncertainty(sensitivity, spread);
    return {at(x), line_u, student_factor(coverage, dof) * std::hypot(line_u, reading_u)};
}

std::optional<double> WeightedLine::leaves(Limits limits, double from, double until, double coverage) const
{
    const auto inside = [&](double x) {
        const auto there = predict(x, coverage);
        return margin(there.value, limits) >= there.half_band;
    };
    double last_inside = from;
    for (int step = 0; step <= kSearchSteps; ++step) {
        const double x = from + (until - from) * step / kSearchSteps;
        if (inside(x)) {
            last_inside = x;
            continue;
        }
        double low = last_inside, high = x;
        for (int halving = 0; halving < 60 && step > 0; ++halving)
            (inside(0.5 * (low + high)) ? low : high) = 0.5 * (low + high);
        return high;
    }
    return std::nullopt;
}

} // namespace zeroline::metrology
