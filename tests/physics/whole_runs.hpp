#pragma once

#include "tests/physics/simulated_bench.hpp"

#include <cstdint>
#include <string>
#include <vector>

// Whole assessments of simulated units with complete run logs.
namespace zeroline::physics_study {

/// What came of one run.
struct Outcome {
    std::string what; ///< what was simulated, for a person
    std::uint64_t seed = 0;
    verification::Assessment result;

    [[nodiscard]] bool passed() const;
    [[nodiscard]] bool blamed() const; ///< the unit is held at fault
    [[nodiscard]] bool raised(const std::string& code) const;
    /// Somebody or something soft at the hose end was asked about or named.
    [[nodiscard]] bool found() const { return raised("soft-hose-end") || raised("breathing"); }
    [[nodiscard]] std::string words() const; ///< one line
};

/// A person (or a bag) on the hose, everything confirmed: compliance 20, 50 or 80 mL/cmH2O, 5 to 20 cmH2O s/L, own
/// effort of 0, 4 or 10 cmH2O.
[[nodiscard]] Outcome run_with_lung(std::uint64_t seed);

/// A healthy unit: two in five at full flow, two in five gentle with ramps to 0.7 s, one of another family; the order
/// leaves the flow out of every second.
[[nodiscard]] Outcome run_healthy(std::uint64_t seed);

/// A unit that delivers `scale` times what it is set to; its display shows what it delivers.
[[nodiscard]] Outcome run_scaled(double scale, std::uint64_t seed);

} // namespace zeroline::physics_study
