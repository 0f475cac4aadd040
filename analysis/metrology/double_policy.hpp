#pragma once

#include <boost/math/policies/policy.hpp>

namespace zeroline::metrology {

/// Computes distributions of double in double: carrying them out in long double, which is the default, takes ten times
/// as long and changes the last few bits only.
using DoublePolicy = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

} // namespace zeroline::metrology
