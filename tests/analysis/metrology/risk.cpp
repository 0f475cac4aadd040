#include "tests/analysis/metrology/risk.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <vector>

namespace zeroline::metrology {

namespace {

constexpr int kPiecesBetweenBreaks = 64; // each integrated with 15 points: the integrand turns within u of a limit

double accepted(double item, double u, Limits acceptance)
{
    const boost::math::normal reading(item, u);
    const double below = acceptance.lower ? cdf(reading, *acceptance.lower) : 0.0;
    const double above = acceptance.upper ? cdf(complement(reading, *acceptance.upper)) : 0.0;
    return 1.0 - below - above;
}

/// Ends of the stretches over which the integrands are smooth.
std::vector<double> breaks(const Prior& prior, Limits tolerance, Limits acceptance)
{
    std::vector<double> at{prior.from, prior.to};
    for (const auto& limit : {tolerance.lower, tolerance.upper, acceptance.lower, acceptance.upper})
        if (limit && *limit > prior.from && *limit < prior.to)
            at.push_back(*limit);
    std::sort(at.begin(), at.end());
    return at;
}

double integrate(const std::function<double(double)>& f, double from, double to)
{
    double sum = 0.0;
    const double step = (to - from) / kPiecesBetweenBreaks;
    for (int piece = 0; piece < kPiecesBetweenBreaks && step > 0.0; ++piece)
        sum += boost::math::quadrature::gauss<double, 15>::integrate(f, from + piece * step, from + (piece + 1) * step);
    return sum;
}

} // namespace

Risks global_risks(const Prior& prior, double u, Limits tolerance, Limits acceptance)
{
    Risks risks;
    const auto at = breaks(prior, tolerance, acceptance);
    for (std::size_t i = 0; i + 1 < at.size(); ++i) {
        const bool conforms = margin(0.5 * (at[i] + at[i + 1]), tolerance) >= 0.0;
        const double part = integrate(prior.density, at[i], at[i + 1]);
        const double passed =
            integrate([&](double x) { return prior.density(x) * accepted(x, u, acceptance); }, at[i], at[i + 1]);
        risks.nonconforming += conforms ? 0.0 : part;
        risks.consumer += conforms ? 0.0 : passed;
        risks.producer += conforms ? part - passed : 0.0;
    }
    return risks;
}

Prior normal_prior(double mean, double standard_deviation)
{
    const boost::math::normal normal(mean, standard_deviation);
    return {[normal](double x) { return pdf(normal, x); }, mean - 12.0 * standard_deviation,
            mean + 12.0 * standard_deviation};
}

} // namespace zeroline::metrology
