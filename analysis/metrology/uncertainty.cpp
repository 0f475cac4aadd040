#include "analysis/metrology/uncertainty.hpp"

#include "analysis/metrology/distributions.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::metrology {

namespace {

// A second rectangle smaller than this part of the first, or a first one smaller than this part of the whole standard
// uncertainty, changes k by less than one in a thousand: it joins the rest.
constexpr double kSecondRectangle = 0.1, kFirstRectangle = 0.05;

double root_sum_of_squares(const std::vector<Contribution>& budget)
{
    double sum = 0.0;
    for (const auto& entry : budget)
        sum += entry.share() * entry.share();
    return std::sqrt(sum);
}

double effective_dof(const std::vector<Contribution>& budget)
{
    std::vector<double> shares, dof;
    for (const auto& entry : budget) {
        shares.push_back(entry.share());
        dof.push_back(entry.dof);
    }
    return welch_satterthwaite(shares, dof);
}

/// Splits off the one or two largest rectangular contributions.
RectangleSum with_rectangles_apart(std::vector<Contribution> budget)
{
    // Stable, so that equal contributions are always taken in the order of the budget.
    std::stable_sort(budget.begin(), budget.end(), [](const auto& a, const auto& b) {
        const bool a_is = a.distribution == Distribution::rectangular,
                   b_is = b.distribution == Distribution::rectangular;
        return a_is != b_is ? a_is : a_is && a.share() > b.share();
    });
    RectangleSum sum;
    const auto half_width = [](const Contribution& entry) { return std::abs(entry.sensitivity) * entry.value; };
    const auto take = [&](double& into, double at_least) {
        if (budget.empty() || budget.front().distribution != Distribution::rectangular ||
            std::isfinite(budget.front().dof) || half_width(budget.front()) <= at_least)
            return;
        into = half_width(budget.front());
        budget.erase(budget.begin());
    };
    take(sum.first, kFirstRectangle * std::sqrt(3.0) * root_sum_of_squares(budget));
    if (sum.first > 0.0)
        take(sum.second, kSecondRectangle * sum.first);
    sum.rest = root_sum_of_squares(budget);
    sum.rest_dof = effective_dof(budget);
    return sum;
}

} // namespace

std::string_view word_of(Distribution distribution) noexcept
{
    switch (distribution) {
    case Distribution::normal:
        return "normal";
    case Distribution::student:
        return "student";
    case Distribution::rectangular:
        return "rectangular";
    case Distribution::triangular:
        return "triangular";
    case Distribution::arcsine:
        break;
    }
    return "arcsine";
}

double Contribution::divisor() const
{
    switch (distribution) {
    case Distribution::normal:
    case Distribution::student:
        break;
    case Distribution::rectangular:
        return std::sqrt(3.0);
    case Distribution::triangular:
        return std::sqrt(6.0);
    case Distribution::arcsine:
        return std::sqrt(2.0);
    }
    return 1.0;
}

double Contribution::standard_uncertainty() const { return value / divisor(); }

double Contribution::share() const { return std::abs(sensitivity) * standard_uncertainty(); }

double welch_satterthwaite(std::span<const double> shares, std::span<const double> dof)
{
    double variance = 0.0;
    for (const double share : shares)
        variance += share * share;
    double weighted = 0.0;
    for (std::size_t i = 0; i < shares.size() && variance > 0.0; ++i) {
        const double part = shares[i] * shares[i] / variance;
        weighted += part * part / dof[i];
    }
    return weighted > 0.0 ? 1.0 / weighted : std::numeric_limits<double>::infinity();
}

double student_factor(double coverage, double dof) { return quantile_beyond(0.5 * (1.0 - coverage), dof); }

double dof_of_factor(double factor)
{
    constexpr double kNormal = 2.0005; // two decimals of 2, or more degrees of freedom than matter
    constexpr int kHalvings = 16;      // a ten-thousandth of the logarithm of the range
    if (factor <= kNormal)
        return std::numeric_limits<double>::infinity();
    double low = 0.5, high = 10'000.0;
    for (int i = 0; i < kHalvings; ++i) {
        const double middle = std::sqrt(low * high);
        (student_factor(kCoverage, middle) > factor ? low : high) = middle;
    }
    return std::sqrt(low * high);
}

double propagated_uncertainty(std::span<const double> sensitivities, std::span<const double> covariance)
{
    const std::size_t n = sensitivities.size();
    double variance = 0.0;
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j < n; ++j)
            variance += sensitivities[i] * sensitivities[j] * covariance[i * n + j];
    return std::sqrt(std::max(variance, 0.0));
}

Expanded combine(const std::vector<Contribution>& budget, double coverage)
{
    Expanded result;
    result.standard_uncertainty = root_sum_of_squares(budget);
    result.effective_dof = effective_dof(budget);
    result.spread = with_rectangles_apart(budget);
    if (result.spread.first == 0.0 || !result.spread.solvable())
        result.spread = {0.0, 0.0, result.standard_uncertainty, result.effective_dof};
    result.coverage_factor = result.standard_uncertainty > 0.0
                                 ? result.spread.half_interval(coverage) / result.standard_uncertainty
                                 : student_factor(coverage, result.effective_dof);
    result.expanded_uncertainty = result.coverage_factor * result.standard_uncertainty;
    return result;
}

} // namespace zeroline::metrology
