#pragma once

#include "acquisition/trace/trace.hpp"

#include <filesystem>
#include <iosfwd>
#include <string>
#include <string_view>

namespace zeroline::trace {

/// Reads a trace in CSV (RFC 4180). Throws InputError naming the line; the caller adds the file.
[[nodiscard]] RawTrace parse_trace_csv(std::string_view text);

/// Reads a trace file; errors name file and line.
[[nodiscard]] RawTrace load_trace_csv(const std::filesystem::path& file);

/// Reads a trace from a file that is open at its beginning; errors name the line, the caller adds the file.
[[nodiscard]] RawTrace read_trace_csv(int descriptor);

/// Header and rows as text, shortest round-trip numbers; parse_trace_csv() reads them back to the last bit.
class TraceCsvWriter {
public:
    /// The columns a captured trace has.
    struct Columns {
        bool from_arrivals = true;
        PressureUnit unit = PressureUnit::cmH2O;
        bool count = false;
        bool instrument_time = false;
        bool note = true;
    };
    explicit TraceCsvWriter(Columns columns);

    [[nodiscard]] std::string header() const;
    /// Appends one row to `out`. NaN pressure: an empty cell. Count -1 or instrument time NaN: an empty cell.
    void append_row(std::string& out, double moment_s, double pressure, std::int64_t count, double instrument_time_s,
                    std::string_view note) const;

private:
    Columns columns_;
};

/// The whole of a raw trace as CSV text.
[[nodiscard]] std::string to_csv(const RawTrace& trace);

/// The word used in the `note` column, and back (other: the text itself is the note).
[[nodiscard]] std::string_view word_of(NoteKind kind) noexcept;
[[nodiscard]] NoteKind note_kind_of(std::string_view word) noexcept;

} // namespace zeroline::trace
