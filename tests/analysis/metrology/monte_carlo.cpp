#include "tests/analysis/metrology/monte_carlo.hpp"

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/student_t_distribution.hpp>
#include <boost/random/uniform_01.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

namespace zeroline::metrology {

namespace {

// Boost's generators and distributions give the same draws with every standard library.
using Generator = boost::random::mt19937_64;

double unit_draw(const Contribution& spread, Generator& generator)
{
    const auto uniform = [&] { return boost::random::uniform_01<double>()(generator); };
    switch (spread.distribution) {
    case Distribution::normal:
        return boost::random::normal_distribution<double>()(generator);
    case Distribution::student:
        return boost::random::student_t_distribution<double>(spread.dof)(generator);
    case Distribution::rectangular:
        return 2.0 * uniform() - 1.0;
    case Distribution::triangular:
        return uniform() + uniform() - 1.0;
    case Distribution::arcsine:
        return std::sin(2.0 * std::numbers::pi * uniform());
    }
    return 0.0;
}

double draw(const Input& input, Generator& generator)
{
    return input.estimate + input.spread.value * unit_draw(input.spread, generator);
}

/// Mean, standard deviation and both ends of the interval: the four figures that must settle.
using Figures = std::array<double, 4>;

Figures figures_of(std::vector<double>& values, double coverage)
{
    const auto n = static_cast<double>(values.size());
    const double mean = std::accumulate(values.begin(), values.end(), 0.0) / n;
    double squares = 0.0;
    for (const double value : values)
        squares += (value - mean) * (value - mean);
    const auto rank = [&](double p) {
        const auto at = values.begin() + static_cast<std::ptrdiff_t>(std::floor(p * (n - 1.0) + 0.5));
        std::nth_element(values.begin(), at, values.end());
        return *at;
    };
    const double low = rank(0.5 * (1.0 - coverage));
    return {mean, std::sqrt(squares / (n - 1.0)), low, rank(0.5 * (1.0 + coverage))};
}

/// Numerical tolerance of a standard uncertainty written with so many digits (JCGM 101:2008, 7.9.2).
double numerical_tolerance(double uncertainty, int digits)
{
    if (uncertainty <= 0.0)
        return 0.0;
    return 0.5 * std::pow(10.0, std::floor(std::log10(uncertainty)) - (digits - 1));
}

bool settled(const std::vector<Figures>& blocks, double uncertainty, int digits)
{
    const auto h = static_cast<double>(blocks.size());
    if (blocks.size() < 2)
        return false;
    for (std::size_t which = 0; which < 4; ++which) {
        double mean = 0.0, squares = 0.0;
        for (const auto& block : blocks)
            mean += block[which] / h;
        for (const auto& block : blocks)
            squares += (block[which] - mean) * (block[which] - mean);
        if (2.0 * std::sqrt(squares / (h * (h - 1.0))) > numerical_tolerance(uncertainty, digits))
            return false;
    }
    return true;
}

std::size_t block_size(double coverage)
{
    return std::max<std::size_t>(10'000, static_cast<std::size_t>(std::ceil(100.0 / (1.0 - coverage))));
}

Propagated summed_up(std::vector<double>& values, double coverage, bool has_settled)
{
    const auto [mean, deviation, low, high] = figures_of(values, coverage);
    Propagated result;
    result.mean = mean;
    result.standard_uncertainty = deviation;
    result.low = low;
    result.high = high;
    result.expanded_uncertainty = std::max(high - mean, mean - low);
    result.coverage_factor = deviation > 0.0 ? result.expanded_uncertainty / deviation : 0.0;
    result.trials = values.size();
    result.settled = has_settled;
    return result;
}

} // namespace

Propagated propagate(std::span<const Input> inputs, const std::function<double(std::span<const double>)>& model,
                     const MonteCarlo& how)
{
    Generator generator(how.seed);
    std::vector<double> arguments(inputs.size()), all;
    std::vector<Figures> blocks;
    bool done = false;
    const std::size_t size = block_size(how.coverage);
    while (!done && all.size() + size <= std::max(how.most_trials, size)) {
        std::vector<double> block(size);
        for (auto& value : block) {
            for (std::size_t i = 0; i < inputs.size(); ++i)
                arguments[i] = draw(inputs[i], generator);
            value = model(arguments);
        }
        all.insert(all.end(), block.begin(), block.end());
        blocks.push_back(figures_of(block, how.coverage));
        done = settled(blocks, figures_of(block, how.coverage)[1], how.significant_digits);
    }
    return summed_up(all, how.coverage, done);
}

} // namespace zeroline::metrology
