#pragma once

#include <limits>

namespace zeroline::metrology {

/// A sum of a Student t and up to two rectangles about zero: how a value is spread by its budget. Both its coverage
/// factor and its probability of lying outside a limit come from here (EA-4/02, S9: rectangle; S10: trapezoid).
struct RectangleSum {
    double first = 0.0;  ///< half-width, 0: none
    double second = 0.0; ///< half-width, 0: none; at most `first`
    double rest = 0.0;   ///< scale of the t, may be 0
    double rest_dof = std::numeric_limits<double>::infinity();

    /// Whether tail() can be had in closed form: a t of two degrees of freedom or fewer has no variance.
    [[nodiscard]] bool solvable() const noexcept { return first == 0.0 || rest == 0.0 || rest_dof > 2.0; }
    /// Probability beyond +-x, x >= 0.
    [[nodiscard]] double tail(double x) const;
    /// Probability above x, which may be negative.
    [[nodiscard]] double above(double x) const;
    /// x with `coverage` between -x and +x.
    [[nodiscard]] double half_interval(double coverage) const;
};

} // namespace zeroline::metrology
