#pragma once

#include "analysis/metrology/rectangle_sum.hpp"

#include <limits>
#include <optional>
#include <string_view>

namespace zeroline::metrology {

struct Limits {
    std::optional<double> lower;
    std::optional<double> upper;
};

/// ILAC-G8:09/2019: simple acceptance (4.2.1); guarded acceptance with w = U, non-binary (4.2.3).
enum class Rule { simple, guarded };

/// In the order in which the worse one wins an overall verdict; not_judged counts for nothing.
enum class Outcome { not_judged, pass, conditional_pass, incomplete, conditional_fail, fail };

[[nodiscard]] std::string_view word_of(Outcome outcome) noexcept; ///< "pass", "conditional-pass", ...
[[nodiscard]] std::string_view word_of(Rule rule) noexcept;
[[nodiscard]] Outcome worse(Outcome a, Outcome b) noexcept;
/// A fail, conditional or not.
[[nodiscard]] bool is_fail(Outcome outcome) noexcept;

/// Smallest distance to a limit, negative outside; infinity without limits. A value on a limit has margin 0: inside.
[[nodiscard]] double margin(double value, Limits limits) noexcept;

/// Unrounded value against limits; U is the expanded uncertainty.
[[nodiscard]] Outcome decide(double value, double expanded_uncertainty, Limits limits, Rule rule) noexcept;

/// The uncertainty is larger than the tolerance, and the value lies outside by no more than it, if at all: such a value
/// judges nothing.
[[nodiscard]] bool too_uncertain(double value, double expanded_uncertainty, Limits limits) noexcept;

/// (TU - TL) / 2U; one-sided TU / U (|limit| / U); none without limits or with U = 0.
[[nodiscard]] std::optional<double> ratio(Limits limits, double expanded_uncertainty) noexcept;

/// Probability that the true value lies outside: spread about the value, flat prior, both tails (JCGM 106, 7).
[[nodiscard]] double probability_outside(double value, const RectangleSum& spread, Limits limits);
/// The same with a t (infinite `dof`: normal) about the value.
[[nodiscard]] double probability_outside(double value, double standard_uncertainty, double dof, Limits limits);

} // namespace zeroline::metrology
