#include "analysis/metrology/distributions.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <cmath>

namespace zeroline::metrology {

namespace {

// In long double, which is the library's default, they take ten times as long and differ in the last few bits.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_double<false>>;
using Normal = boost::math::normal_distribution<double, InDouble>;
using Student = boost::math::students_t_distribution<double, InDouble>;

} // namespace

double tail_beyond(double z, double dof)
{
    return std::isinf(dof) ? cdf(complement(Normal(), z)) : cdf(complement(Student(dof), z));
}

double quantile_beyond(double probability, double dof)
{
    return std::isinf(dof) ? quantile(complement(Normal(), probability))
                           : quantile(complement(Student(dof), probability));
}

double density_at(double z, double dof) { return std::isinf(dof) ? pdf(Normal(), z) : pdf(Student(dof), z); }

} // namespace zeroline::metrology
