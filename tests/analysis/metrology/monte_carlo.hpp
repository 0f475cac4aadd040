#pragma once

#include "analysis/metrology/uncertainty.hpp"

#include <cstdint>
#include <functional>
#include <span>

namespace zeroline::metrology {

/// An input of a model that is not linear: its estimate, and how it is spread about it (sensitivity is not used).
struct Input {
    double estimate = 0.0;
    Contribution spread;
};

/// How a Monte Carlo is run (JCGM 101:2008, 7.9.4, adaptive).
struct MonteCarlo {
    double coverage = kCoverage;
    int significant_digits = 2; ///< of the standard uncertainty, that must have settled
    std::size_t most_trials = 2'000'000;
    std::uint64_t seed = 1; ///< same seed, same result
};

/// What a Monte Carlo comes to; as an Expanded, U is the larger distance of the interval's ends from the mean.
struct Propagated : Expanded {
    double mean = 0.0;
    double low = 0.0, high = 0.0; ///< probabilistically symmetric coverage interval (JCGM 101:2008, 7.7)
    std::size_t trials = 0;
    bool settled = false; ///< the tolerance was met before `most_trials`
};

/// Propagation of distributions (JCGM 101:2008, clause 7) through `model`, which is given the inputs in their order.
[[nodiscard]] Propagated propagate(std::span<const Input> inputs,
                                   const std::function<double(std::span<const double>)>& model,
                                   const MonteCarlo& how = {});

} // namespace zeroline::metrology
