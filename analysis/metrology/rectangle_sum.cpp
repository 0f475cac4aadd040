#include "analysis/metrology/rectangle_sum.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace zeroline::metrology {

namespace {

// Beyond this a t cannot be told from a normal in double precision of a tail, and its moments lose digits.
constexpr double kNormalFromDof = 1e6;

/// Partial moments E[(T - z)+] and E[(T - z)+ ^2] / 2, which a rectangle's (two rectangles') convolution is made of.
struct PartialMoments {
    double first;
    double half_second;
};

PartialMoments of_normal(double z)
{
    const boost::math::normal normal;
    const double beyond = cdf(complement(normal, z));
    const double density = pdf(normal, z);
    return {density - z * beyond, 0.5 * ((1.0 + z * z) * beyond - z * density)};
}

PartialMoments of_student(double z, double dof)
{
    const boost::math::students_t student(dof);
    const boost::math::students_t narrower(dof - 2.0);
    const double beyond = cdf(complement(student, z));
    const double moment1 = (dof + z * z) / (dof - 1.0) * pdf(student, z);
    const double stretch = std::sqrt(dof / (dof - 2.0));
    const double scale = pdf(student, 0.0) / pdf(narrower, 0.0) * stretch;
    const double moment2 = dof * (scale * cdf(complement(narrower, z / stretch)) - beyond);
    return {moment1 - z * beyond, 0.5 * (moment2 - 2.0 * z * moment1 + z * z * beyond)};
}

PartialMoments moments(double distance, double scale, double dof)
{
    const double over = std::max(-distance, 0.0);
    if (scale == 0.0)
        return {over, 0.5 * over * over};
    const double z = distance / scale;
    const auto unit = dof > kNormalFromDof ? of_normal(z) : of_student(z, dof);
    return {scale * unit.first, scale * scale * unit.half_second};
}

} // namespace

double RectangleSum::tail(double x) const
{
    const auto at = [this](double distance) { return moments(distance, rest, rest_dof); };
    if (second == 0.0)
        return (at(x - first).first - at(x + first).first) / first;
    const double corners = at(x - first - second).half_second - at(x - first + second).half_second -
                           at(x + first - second).half_second + at(x + first + second).half_second;
    return corners / (2.0 * first * second);
}

double RectangleSum::half_interval(double coverage) const
{
    const auto missing = [&](double x) { return tail(x) - (1.0 - coverage); };
    double high = first + second + 3.0 * rest;
    while (missing(high) > 0.0)
        high *= 2.0;
    std::uintmax_t rounds = 200;
    const auto bracket =
        boost::math::tools::bisect(missing, 0.0, high, boost::math::tools::eps_tolerance<double>(46), rounds);
    return 0.5 * (bracket.first + bracket.second);
}

} // namespace zeroline::metrology
