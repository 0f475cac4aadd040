#pragma once

namespace zeroline::metrology {

/// Student's t with `dof` degrees of freedom (> 0; endless: the standard normal distribution), from a library, computed
/// in double: good to some 1e-14 of the value.

/// Probability beyond z.
[[nodiscard]] double tail_beyond(double z, double dof);
/// The z beyond which there is that probability, 0..1 without the ends.
[[nodiscard]] double quantile_beyond(double probability, double dof);
/// Probability density at z.
[[nodiscard]] double density_at(double z, double dof);

} // namespace zeroline::metrology
