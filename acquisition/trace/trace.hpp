#pragma once

#include "acquisition/trace/units.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::trace {

/// What a reading without a value, or an event between readings, was.
enum class NoteKind { overrange, not_a_number, checksum, lost, back, other };

/// Whether it stands for a reading that was sent without a value; else for something that happened meanwhile.
[[nodiscard]] constexpr bool is_of_a_reading(NoteKind kind) noexcept
{
    return kind == NoteKind::overrange || kind == NoteKind::not_a_number || kind == NoteKind::checksum;
}

/// A note at a row of the raw trace.
struct Note {
    std::size_t row = 0; ///< index of the row it stands on
    NoteKind kind = NoteKind::other;
    std::string text; ///< as written in the file
};

/// A trace as it was captured or handed over: raw readings in the instrument's own unit. This is the evidence; sample
/// times and corrected pressures are derived from it (derive()), so they can always be derived again.
struct RawTrace {
    PressureUnit unit = PressureUnit::cmH2O;
    bool from_arrivals = false;            ///< `moment_s` holds arrival times, not sample times
    std::vector<double> moment_s;          ///< one a row, seconds; sample times strictly increase, arrivals may repeat
    std::vector<double> pressure;          ///< one a row, in `unit`; NaN where the row carries no value
    std::vector<std::int64_t> count;       ///< the instrument's own counter, one a row (-1: none), or empty
    std::vector<double> instrument_time_s; ///< the instrument's own clock, one a row (NaN: none), or empty
    std::vector<Note> notes;               ///< in row order
    bool cut_last_line = false;            ///< an unfinished last line was dropped
};

/// Something that happened at a moment of the trace and is no sample.
struct Event {
    double time_s = 0.0;
    NoteKind kind = NoteKind::other;
    std::string text;
};

/// Readings that the instrument counted but that never arrived.
struct LostReadings {
    std::size_t after_sample = 0; ///< index of the sample before the hole
    std::int64_t how_many = 0;
};

/// How the sample times came about.
struct Sampling {
    double rate_hz = 0.0;                 ///< 1 / median interval; 0 where there are fewer than two samples
    std::optional<double> rate_error_ppm; ///< against the nominal rate; positive: the instrument runs fast
    std::optional<double> residual_s;     ///< rms of the clock fit's residuals; none where times were given
    std::optional<double> batch_period_s; ///< period at which arrivals came in bunches
    std::int64_t lost = 0;                ///< readings lost by count, in all
    bool from_arrivals = false;
};

/// A trace ready to be measured: samples with a value only, in cmH2O, corrected by the calibration points.
struct Trace {
    std::vector<double> time_s;         ///< strictly increasing
    std::vector<double> pressure_cmH2O; ///< same length
    std::vector<Event> events;          ///< readings without value and line events, in time order
    std::vector<LostReadings> lost;     ///< in order
    Sampling sampling;

    [[nodiscard]] std::size_t size() const noexcept { return time_s.size(); }
};

} // namespace zeroline::trace
