#pragma once

#include "analysis/metrology/rectangle_sum.hpp"

#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::metrology {

/// Shape of what is known about an input quantity (JCGM 100:2008, 4.3; JCGM 101:2008, 6.4).
enum class Distribution { normal, student, rectangular, triangular, arcsine };

[[nodiscard]] std::string_view word_of(Distribution distribution) noexcept; ///< "normal", "student", ...

/// One line of a budget.
struct Contribution {
    std::string name;
    double value = 0.0; ///< normal, student: standard uncertainty; the others: half-width. Input's unit
    Distribution distribution = Distribution::normal;
    double dof = std::numeric_limits<double>::infinity();
    double sensitivity = 1.0; ///< change of the result per change of the input
    std::string unit = {};    ///< of the input; empty: the result's

    [[nodiscard]] double divisor() const;              ///< value over standard uncertainty: 1, sqrt 3, ...
    [[nodiscard]] double standard_uncertainty() const; ///< of the input
    [[nodiscard]] double share() const;                ///< |sensitivity| x standard uncertainty, result's unit
};

/// What a budget comes to.
struct Expanded {
    double standard_uncertainty = 0.0;
    double effective_dof = std::numeric_limits<double>::infinity();
    double coverage_factor = 2.0;
    double expanded_uncertainty = 0.0;
    RectangleSum spread; ///< the distribution that the coverage factor comes from
};

/// Coverage probability of every U of a record: two-sided normal, k = 2 (erf(sqrt 2), '95.45 %').
inline constexpr double kCoverage = 0.95449973610364158;

/// Root sum of squares, Welch-Satterthwaite (JCGM 100:2008, G.4.1) at the degrees of freedom as they come out:
/// interpolated, neither rounded nor truncated (G.4.2 allows both). The coverage factor is that of the distribution
/// that results: the one or two largest rectangular contributions and a t of all the rest (EA-4/02, S9 and S10);
/// without a rectangle of any size, or with two degrees of freedom or fewer in the rest, Student's t. An empty budget,
/// or one of zeros: U = 0, k of infinite degrees of freedom.
[[nodiscard]] Expanded combine(const std::vector<Contribution>& budget, double coverage = kCoverage);

/// Two-sided Student t quantile at `coverage` (0..1) with `dof` > 0 degrees of freedom (infinity: normal). JCGM 100,
/// table G.2.
[[nodiscard]] double student_factor(double coverage, double dof);

/// JCGM 100:2008, G.4.1, of uncertainty shares and their degrees of freedom; infinite where every share is exact.
[[nodiscard]] double welch_satterthwaite(std::span<const double> shares, std::span<const double> dof);

/// The degrees of freedom for which Student's factor at kCoverage is `factor`: what a certificate's k above 2 says of
/// its U. Infinite up to k = 2.
[[nodiscard]] double dof_of_factor(double factor);

/// Law of propagation with correlated inputs (JCGM 100:2008, 5.2.2): sqrt(c' V c), V row by row.
[[nodiscard]] double propagated_uncertainty(std::span<const double> sensitivities, std::span<const double> covariance);

} // namespace zeroline::metrology
