#pragma once

#include "fixtures/physics/run.hpp"
#include "tests/physics/plain.hpp"

namespace zeroline::physics_study {

enum class Where {
    at_sensor,  ///< what the sensor's electronics have: what is left to the measuring is noise and sampling
    before_lag, ///< at the hose end, before sensing line and lag
};

/// The definitions applied to the clean pressure of a run, at every step of its integration. The phases come from what
/// was asked of the unit; cycles are counted from 1. `until_s`: where the last rest is cut.
[[nodiscard]] std::vector<Value> true_values(const physics::Run& run, Where where, double until_s);

} // namespace zeroline::physics_study
