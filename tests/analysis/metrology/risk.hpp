#pragma once

#include "analysis/metrology/decision.hpp"

#include <functional>

namespace zeroline::metrology {

/// What is known about an item before it is measured: a density over [from, to] that integrates to about 1.
struct Prior {
    std::function<double(double)> density;
    double from = 0.0;
    double to = 0.0;
};

/// Risks of a decision rule over a whole population of items (JCGM 106:2012, 9.5): global, not of one reading.
struct Risks {
    double consumer = 0.0;      ///< accepted though outside tolerance (false accept)
    double producer = 0.0;      ///< rejected though inside (false reject)
    double nonconforming = 0.0; ///< outside tolerance, measured or not
};

/// Global risks where items follow `prior`, readings are normal about them with standard uncertainty `u` > 0, and an
/// item is accepted when its reading lies within `acceptance`. By quadrature, to about 1e-9.
[[nodiscard]] Risks global_risks(const Prior& prior, double u, Limits tolerance, Limits acceptance);

/// Normal prior, cut at 12 standard deviations.
[[nodiscard]] Prior normal_prior(double mean, double standard_deviation);

} // namespace zeroline::metrology
