#pragma once

#include "analysis/verification/measured_trace.hpp"

#include <string>
#include <vector>

namespace zeroline::verification {

/// Something that keeps a judgement from being made: evidence that is missing, or a finding that touches it.
struct Hindrance {
    Reason reason;
    std::vector<std::string> measurands; ///< empty: every one
    std::string preset;                  ///< empty: every one

    [[nodiscard]] bool stops(const std::string& measurand, const std::string& of_preset) const;
};

/// Step 1 of a judgement (docs/method.md), in the order in which the first one found is named.
[[nodiscard]] std::vector<Hindrance> hindrances(const MeasuredTrace& measured_trace,
                                                const std::vector<Finding>& findings);

/// The first hindrance in the way of a measurand of a preset, or null.
[[nodiscard]] const Hindrance* first_hindrance(const std::vector<Hindrance>& all, const std::string& measurand,
                                               const std::string& preset);

} // namespace zeroline::verification
