#pragma once

#include "analysis/verification/judgement_hindrances.hpp"

#include <string>
#include <vector>

namespace zeroline::verification {

/// No unit of this kind reaches such a pressure: the sensor or its unit is wrong, and a finding says so.
inline constexpr double kBeyondAnyUnit_cmH2O = 200.0;

/// Something seen that makes a unit unfit for use at once, in whichever cycle it was seen (docs/method.md, critical).
struct Critical {
    Reason reason;
    std::string measurand, preset;
    int cycle = 0;            ///< index; 0: not one cycle
    bool for_verdict = false; ///< it speaks against the prescription
    bool for_unit = false;    ///< it is not explained by what the unit was set to
    bool within_u = false;    ///< beyond its limit, but by no more than its uncertainty
    bool possible = false;  ///< within its uncertainty, or the evidence does not allow to say so: incomplete, not fail
    bool explained = false; ///< possible, and the readings are against vacuum: no alarm
};

[[nodiscard]] std::vector<Critical> criticals(const MeasuredTrace& measured_trace,
                                              const std::vector<Hindrance>& hindrances);

} // namespace zeroline::verification
