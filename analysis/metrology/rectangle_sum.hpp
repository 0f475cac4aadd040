#pragma once

namespace zeroline::metrology {

/// A sum of a rectangle, perhaps a second one, and a Student t: what a budget is that one or two rectangular
/// contributions dominate (EA-4/02, S9: rectangle; S10: trapezoid).
struct RectangleSum {
    double first = 0.0;  ///< half-width, > 0
    double second = 0.0; ///< half-width, 0: none
    double rest = 0.0;   ///< scale of the t, may be 0
    double rest_dof = 0.0;

    /// Whether tail() can be had in closed form: a t of two degrees of freedom or fewer has no variance.
    [[nodiscard]] bool solvable() const noexcept { return rest == 0.0 || rest_dof > 2.0; }
    /// Probability beyond +-x.
    [[nodiscard]] double tail(double x) const;
    /// x with `coverage` between -x and +x.
    [[nodiscard]] double half_interval(double coverage) const;
};

} // namespace zeroline::metrology
