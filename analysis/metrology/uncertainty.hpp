#pragma once

#include <cstdint>
#include <functional>
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
};

/// Coverage probability of every U of a record: two-sided normal, k = 2 (erf(sqrt 2), '95.45 %').
inline constexpr double kCoverage = 0.95449973610364158;

/// Root sum of squares, Welch-Satterthwaite (JCGM 100:2008, G.4.1), Student t at the effective degrees of freedom as
/// they come out: interpolated, neither rounded nor truncated (G.4.2 allows both). Where one or two rectangular
/// contributions are larger than all the rest together, the coverage factor is that of the resulting distribution,
/// rectangle
/// (+ rectangle) + t (EA-4/02, S9 and S10). An empty budget, or one of zeros: U = 0, k of infinite degrees of freedom.
[[nodiscard]] Expanded combine(const std::vector<Contribution>& budget, double coverage = kCoverage);

/// Two-sided Student t quantile at `coverage` (0..1) with `dof` > 0 degrees of freedom (infinity: normal). JCGM 100,
/// table G.2.
[[nodiscard]] double student_factor(double coverage, double dof);

/// JCGM 100:2008, G.4.1, of uncertainty shares and their degrees of freedom; infinite where every share is exact.
[[nodiscard]] double welch_satterthwaite(std::span<const double> shares, std::span<const double> dof);

/// Degrees of freedom of an uncertainty that is itself known to a relative uncertainty (JCGM 100:2008, G.4.2).
[[nodiscard]] double dof_of_estimate(double relative_uncertainty);

/// Law of propagation with correlated inputs (JCGM 100:2008, 5.2.2): sqrt(c' V c), V row by row.
[[nodiscard]] double propagated_uncertainty(std::span<const double> sensitivities, std::span<const double> covariance);

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
