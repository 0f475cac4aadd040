#pragma once

#include "gui/register/unit_register.hpp"

#include <optional>
#include <string>
#include <vector>

namespace zeroline::unit_register {

/// Visits from which on a line says when the limit is reached.
inline constexpr std::size_t kVisitsForALine = 4;

/// How one quantity of a unit went over its visits. An error is the mean as found less its target; without a target
/// the mean itself.
struct QuantityDrift {
    std::string measurand, preset, compared_with, unit;
    std::vector<std::string> days; ///< of the visits, the oldest first
    std::vector<double> errors;
    std::optional<double> centre, lower, upper; ///< XmR chart; from two visits on
    std::vector<std::string> outside;           ///< days of visits beyond those limits
    std::vector<std::string> runs;              ///< "DAY: rule" for each run that chance rarely makes
    std::optional<double> per_year, per_year_u; ///< slope of the weighted line and its standard uncertainty
    std::string reaches_limit; ///< first day on which the line's 95 % band is not within the tolerance; empty: none
};

/// How a unit went, and when to check it next.
struct UnitDrift {
    std::vector<QuantityDrift> quantities;
    std::string next_due;   ///< of its last check; empty: none
    std::string next_check; ///< next_due, or earlier where a quantity reaches its limit before; empty: neither
    std::string method;     ///< by which next_check was found
};

/// ILAC-G24 / OIML D 10 name the ways to choose an interval. Until there is a line, it is fixed; then the errors of all
/// visits over calendar time bring it forward.
inline constexpr const char* kFixedInterval = "fixed interval";
inline constexpr const char* kControlChart = "control chart over calendar time (ILAC-G24, method 2)";

/// Of UnitRegister::figures_of(): visits captured here, the oldest first. The line looks ten years ahead at most.
[[nodiscard]] UnitDrift drift_of(const Rows& figures);

} // namespace zeroline::unit_register
