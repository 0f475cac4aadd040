#pragma once

#include "analysis/metrology/decision.hpp"
#include "analysis/metrology/uncertainty.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace zeroline::metrology {

/// A run of values that chance alone rarely makes, after the rules of Western Electric as the NIST/SEMATECH e-Handbook
/// of Statistical Methods, 6.3.2, gives them.
struct Run {
    std::size_t at = 0;     ///< index of the value that completes it
    const char* rule = ""; ///< "2 of 3 beyond 2 sigma", "4 of 5 beyond 1 sigma", "8 in a row on one side"
};

/// Individuals and moving range chart (XmR), NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2.
struct IndividualsChart {
    double centre = 0.0;
    double mean_moving_range = 0.0;
    double lower = 0.0, upper = 0.0;  ///< centre -+ 3 mean moving ranges / d2, d2 = 2 / sqrt(pi)
    double moving_range_upper = 0.0;  ///< D4 x mean moving range
    std::vector<std::size_t> outside; ///< individuals beyond the limits
    std::vector<Run> runs;            ///< rule by rule, in order
};

/// Nothing for fewer than two values: no moving range.
[[nodiscard]] std::optional<IndividualsChart> individuals_chart(std::span<const double> values);

/// A reading of a later visit as the line foresees it.
struct Prediction {
    double value = 0.0;
    double line_uncertainty = 0.0; ///< standard uncertainty of the line there
    double half_band = 0.0;        ///< of the band that holds the next reading
};

/// Straight line through readings with their uncertainties, weights 1/u^2. Where the readings scatter more than their
/// uncertainties allow, the covariance is widened by chi^2 / (n - 2) (Birge ratio); it is never narrowed.
struct WeightedLine {
    double intercept = 0.0, slope = 0.0;
    double intercept_u = 0.0, slope_u = 0.0, covariance = 0.0;
    double scatter = 1.0;   ///< Birge ratio that was applied; unweighted: residual standard deviation
    double reading_u = 0.0; ///< standard uncertainty of a next reading by itself, scatter taken in
    double dof = 0.0;       ///< n - 2

    [[nodiscard]] double at(double x) const noexcept { return intercept + slope * x; }
    [[nodiscard]] Prediction predict(double x, double coverage = kCoverage) const;
    /// First x in [from, until] where the band is not within the limits any more; none where it stays inside.
    [[nodiscard]] std::optional<double> leaves(Limits limits, double from, double until,
                                               double coverage = kCoverage) const;
};

/// `u` empty: equal weights, uncertainty from the residuals (JCGM 100:2008, H.3). Nothing for fewer than three readings
/// or where all x are the same. Sizes of x and y (and u, all > 0) must agree.
[[nodiscard]] std::optional<WeightedLine> fit_line(std::span<const double> x, std::span<const double> y,
                                                   std::span<const double> u = {});

} // namespace zeroline::metrology
