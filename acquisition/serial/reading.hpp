#pragma once

#include "acquisition/trace/trace.hpp"

#include <cstdint>
#include <limits>

namespace zeroline::serial {

/// One reading as it came off the line, or an event of the line itself (lost, back).
struct Reading {
    double arrival_s = 0.0;                                  ///< seconds since the capture began, monotonic clock
    double value = std::numeric_limits<double>::quiet_NaN(); ///< in the unit of the instrument's language; NaN: none
    std::int64_t count = -1;                                 ///< the instrument's counter, or -1
    double instrument_time_s = std::numeric_limits<double>::quiet_NaN(); ///< the instrument's own clock, or NaN
    bool has_note = false;
    trace::NoteKind note = trace::NoteKind::other; ///< meant where `has_note`
};

} // namespace zeroline::serial
