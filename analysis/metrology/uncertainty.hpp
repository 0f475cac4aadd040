#pragma once

#include <limits>
#include <string>
#include <vector>

namespace zeroline::metrology {

/// Shape of what is known about an input quantity (JCGM 100:2008, 4.3; JCGM 101:2008, 6.4).
enum class Distribution { normal, student, rectangular, triangular, arcsine };

/// One line of a budget.
struct Contribution {
    std::string name;
    double value = 0.0; ///< normal, student: standard uncertainty; the others: half-width. Input's unit
    Distribution distribution = Distribution::normal;
    double dof = std::numeric_limits<double>::infinity();
    double sensitivity = 1.0; ///< change of the result per change of the input

    [[nodiscard]] double standard_uncertainty() const; ///< of the input
    [[nodiscard]] double share() const;                ///< |sensitivity| x standard uncertainty, result's unit
};

/// What a budget comes to.
struct Expanded {
    double standard_uncertainty = 0.0;
    double effective_dof = std::numeric_limits<double>::infinity();
    double coverage_factor = 2.0;
    double expanded_uncertainty = 0.0;
};

inline constexpr double kCoverage = 0.9545; ///< coverage probability of every U of a record (two-sided normal, k = 2)

/// Root sum of squares, Welch-Satterthwaite (JCGM 100:2008, G.4.1), Student t; where one rectangular contribution
/// dominates, the coverage factor of rectangle (+ rectangle) (EA-4/02, S9 and S10).
[[nodiscard]] Expanded combine(const std::vector<Contribution>& budget, double coverage = kCoverage);

/// Two-sided Student t quantile at `coverage` with `dof` degrees of freedom (infinity: normal). JCGM 100, table G.2.
[[nodiscard]] double student_factor(double coverage, double dof);

} // namespace zeroline::metrology
