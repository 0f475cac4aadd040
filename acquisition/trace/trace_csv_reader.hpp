#pragma once

#include "acquisition/trace/csv_cells.hpp"
#include "acquisition/trace/trace.hpp"
#include "acquisition/trace/trace_columns.hpp"

#include <limits>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::trace {

/// Reads a trace from text that comes in blocks, so that a file never stands in memory as a whole.
class TraceCsvReader {
public:
    /// `total_bytes`: how long the text will be in all, for setting memory aside once; 0 if not known.
    explicit TraceCsvReader(std::size_t total_bytes) : total_bytes_(total_bytes) {}

    /// Reads the complete rows at the beginning of `block`; returns how many bytes were read. The rest is to be handed
    /// in again, in front of what follows.
    [[nodiscard]] std::size_t take(std::string_view block);

    /// The end: `rest` is what take() left. Throws where it is no cut last line.
    [[nodiscard]] RawTrace finish(std::string_view rest);

    /// The line at which reading stands, counted from 1.
    [[nodiscard]] std::size_t line() const noexcept { return line_; }

private:
    struct Row {
        double moment_s = 0.0;
        double pressure = 0.0;
        std::int64_t count = -1;
        double instrument_time_s = std::numeric_limits<double>::quiet_NaN();
        std::string note;
        std::size_t lines = 1;
    };

    const char* take_line(const char* begin, const char* limit);
    /// Where rows of two numbers go.
    struct PlainRows {
        std::vector<double>& moment_s;
        std::vector<double>& pressure;
    };
    const char* read_plain_rows(const char* p, const char* limit, double before_s, PlainRows rows) const;
    const char* take_plain_rows(const char* p, const char* limit);
    const char* take_plain_halves(const char* p, const char* limit);
    [[nodiscard]] bool follows(double moment_s, double before_s) const noexcept;
    const char* take_header(const char* begin, const char* limit);
    const char* take_row(const char* begin, const char* limit);
    const char* take_cell(std::size_t column, const char* begin, const char* limit, Row& row);
    const char* take_number(std::size_t column, const char* begin, const char* limit, double& value);
    const char* take_other(std::size_t column, const char* begin, const char* limit, Row& row);
    [[nodiscard]] double slow_number(std::size_t column, std::string_view cell);
    CsvCell cell_at(const char* begin, const char* limit, std::size_t& lines);
    [[nodiscard]] std::int64_t count_of(std::string_view cell) const;
    void store(Row& row);
    void make_room(std::size_t bytes_read);
    void check_order(double moment_s) const;
    void check_marks(std::string_view block);
    [[noreturn]] void refuse(const std::string& found, const std::string& expected) const;
    [[noreturn]] void refuse_number(std::size_t column, std::string_view cell) const;

    std::size_t total_bytes_;
    std::size_t bytes_taken_ = 0;
    std::size_t line_ = 1;
    bool began_ = false;
    bool has_header_ = false;
    bool only_two_numbers_ = false;
    CsvStyle style_;
    std::vector<std::string> names_;
    TraceColumns columns_;
    std::string scratch_;
    RawTrace trace_;
};

} // namespace zeroline::trace
