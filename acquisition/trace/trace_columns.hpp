#pragma once

#include "acquisition/trace/units.hpp"

#include <string>
#include <vector>

namespace zeroline::trace {

/// What the header row of a trace says.
struct TraceColumns {
    enum class Role : unsigned char { ignored, moment, pressure, count, instrument_time, note };

    std::vector<Role> roles; ///< one a column
    PressureUnit unit = PressureUnit::cmH2O;
    bool from_arrivals = false;
    double moments_per_s = 1.0;          ///< divisor of the time column: 1, 1e3 or 1e6
    double instrument_times_per_s = 1.0; ///< divisor of the instrument's own time
    bool has_count = false;
    bool has_instrument_time = false;
    bool has_note = false;
};

/// Finds the columns by their names, units after the last underscore. Throws InputError without a place.
[[nodiscard]] TraceColumns find_columns(const std::vector<std::string>& names);

} // namespace zeroline::trace
