#include "acquisition/trace/trace_csv_reader.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/plain_decimal.hpp"
#include "acquisition/trace/trace_csv.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstring>
#include <future>

namespace zeroline::trace {

namespace {

using Role = TraceColumns::Role;

constexpr std::size_t kMostRows = 100'000'000;
constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr std::ptrdiff_t kLarge = std::ptrdiff_t{1} << 19; // bytes that take longer to read than a thread to start

std::string as_text(double value)
{
    char text[32];
    const auto end = std::to_chars(text, text + sizeof text, value);
    return {text, end.ptr};
}

/// Behind the line end at `p`, or nullptr where no line ends here. A line feed always follows in the text.
const char* behind_line_end(const char* p) noexcept
{
    if (*p == '\n') {
        return p + 1;
    }
    return *p == '\r' && p[1] == '\n' ? p + 2 : nullptr;
}

const char* next_line(const char* p, const char* limit) noexcept
{
    const void* feed = std::memchr(p, '\n', static_cast<std::size_t>(limit - p));
    return static_cast<const char*>(feed) + 1;
}

template <class Values> void grow(Values& values, std::size_t rows)
{
    if (values.capacity() < rows) {
        values.reserve(rows);
    }
}

} // namespace

void TraceCsvReader::refuse(const std::string& found, const std::string& expected) const
{
    throw InputError("line " + std::to_string(line_), found, expected);
}

void TraceCsvReader::refuse_number(std::size_t column, std::string_view cell) const
{
    refuse(shown(cell) + " in column " + shown(trimmed(names_[column])), "a finite number");
}

std::size_t TraceCsvReader::take(std::string_view block)
{
    const char* p = block.data();
    if (!began_ && block.size() >= 3) {
        check_marks(block);
        p += block.starts_with("\xEF\xBB\xBF") ? 3 : 0;
        began_ = true;
    }
    const auto last_feed = block.rfind('\n');
    if (last_feed == std::string_view::npos) {
        return static_cast<std::size_t>(p - block.data());
    }
    const char* limit = block.data() + last_feed + 1;
    if (only_two_numbers_ && limit - p >= kLarge) {
        p = take_plain_halves(p, limit);
    }
    while (p != limit) {
        if (only_two_numbers_) {
            p = take_plain_rows(p, limit);
            if (p == limit) {
                break;
            }
        }
        const char* next = take_line(p, limit);
        if (next == nullptr) {
            break;
        }
        p = next;
    }
    make_room(static_cast<std::size_t>(p - block.data()));
    return static_cast<std::size_t>(p - block.data());
}

bool TraceCsvReader::follows(double moment_s, double before_s) const noexcept
{
    return moment_s > before_s || (columns_.from_arrivals && moment_s == before_s);
}

/// The many rows of two numbers that nothing is wrong with; stops in front of the first row that needs a closer look.
const char* TraceCsvReader::read_plain_rows(const char* p, const char* limit, double before_s, PlainRows rows) const
{
    const char separator = style_.separator;
    while (p != limit && rows.moment_s.size() < kMostRows) {
        double moment = 0.0;
        double pressure = 0.0;
        const auto first = read_decimal(p, limit, moment);
        if (first.ec != std::errc{} || *first.ptr != separator) {
            break;
        }
        const auto second = read_decimal(first.ptr + 1, limit, pressure);
        const char* next = second.ec == std::errc{} ? behind_line_end(second.ptr) : nullptr;
        moment /= columns_.moments_per_s;
        if (next == nullptr || !(follows(moment, before_s) && moment <= kLargestTime_s && moment >= -kLargestTime_s &&
                                 std::fabs(pressure) <= kLargestPressure)) {
            break;
        }
        rows.moment_s.push_back(moment);
        rows.pressure.push_back(pressure);
        before_s = moment;
        p = next;
    }
    return p;
}

const char* TraceCsvReader::take_plain_rows(const char* p, const char* limit)
{
    const std::size_t rows_before = trace_.moment_s.size();
    const double before_s = rows_before == 0 ? -kFar : trace_.moment_s.back();
    p = read_plain_rows(p, limit, before_s, {trace_.moment_s, trace_.pressure});
    line_ += trace_.moment_s.size() - rows_before;
    return p;
}

/// Both halves of a large text at once. Of the second nothing counts unless the first was read to its end and is
/// followed by it in time: what is read, and where reading stops, is the same as row by row.
const char* TraceCsvReader::take_plain_halves(const char* p, const char* limit)
{
    const char* middle = next_line(p + (limit - p) / 2, limit);
    std::vector<double> moment_s;
    std::vector<double> pressure;
    auto second = std::async([&, this] { return read_plain_rows(middle, limit, -kFar, {moment_s, pressure}); });
    p = take_plain_rows(p, middle);
    const char* end = second.get();
    const bool goes_on = p == middle && !moment_s.empty() && follows(moment_s.front(), trace_.moment_s.back()) &&
                         trace_.moment_s.size() + moment_s.size() <= kMostRows;
    if (!goes_on) {
        return p;
    }
    trace_.moment_s.insert(trace_.moment_s.end(), moment_s.begin(), moment_s.end());
    trace_.pressure.insert(trace_.pressure.end(), pressure.begin(), pressure.end());
    line_ += moment_s.size();
    return end;
}

void TraceCsvReader::check_marks(std::string_view block)
{
    if (block.starts_with("\xFF\xFE") || block.starts_with("\xFE\xFF") || block[1] == '\0') {
        refuse("the text is UTF-16", "UTF-8; in the editor or spreadsheet, save it as CSV UTF-8");
    }
}

const char* TraceCsvReader::take_line(const char* begin, const char* limit)
{
    if (*begin == '#') {
        ++line_;
        return next_line(begin, limit);
    }
    if (const char* next = behind_line_end(begin)) {
        ++line_;
        return next;
    }
    return has_header_ ? take_row(begin, limit) : take_header(begin, limit);
}

CsvCell TraceCsvReader::cell_at(const char* begin, const char* limit, std::size_t& lines)
{
    auto cell = read_cell(begin, limit, style_.separator, scratch_);
    if (cell.end != nullptr && !cell.well_formed) {
        refuse(*begin == '"' ? "text behind a closing quote" : "a carriage return inside a line",
               "cells as in RFC 4180, lines that end with LF or CR LF");
    }
    lines += cell.line_breaks;
    return cell;
}

const char* TraceCsvReader::take_header(const char* begin, const char* limit)
{
    const auto length = static_cast<std::size_t>(next_line(begin, limit) - begin);
    style_.separator = separator_of({begin, length});
    style_.decimal = style_.separator == ';' ? '\0' : '.';
    names_.clear();
    std::size_t lines = 1;
    for (const char* p = begin;; ++p) {
        const auto cell = cell_at(p, limit, lines);
        if (cell.end == nullptr) {
            return nullptr;
        }
        names_.emplace_back(cell.text);
        p = cell.end;
        if (const char* next = behind_line_end(p)) {
            try {
                columns_ = find_columns(names_);
            } catch (const InputError& error) {
                refuse(error.found(), error.expected());
            }
            trace_.unit = columns_.unit;
            trace_.from_arrivals = columns_.from_arrivals;
            has_header_ = true;
            only_two_numbers_ = columns_.roles == std::vector{Role::moment, Role::pressure} && style_.separator == ',';
            line_ += lines;
            return next;
        }
    }
}

const char* TraceCsvReader::take_row(const char* begin, const char* limit)
{
    Row row;
    const std::size_t columns = columns_.roles.size();
    const char* p = begin;
    for (std::size_t column = 0; column < columns; ++column) {
        p = take_cell(column, p, limit, row);
        if (p == nullptr) {
            return nullptr;
        }
        const bool more = *p == style_.separator;
        if (more != (column + 1 < columns)) {
            refuse(more ? "more cells than the header names" : "only " + std::to_string(column + 1) + " cells",
                   std::to_string(columns) + " cells");
        }
        p += more ? 1 : 0;
    }
    store(row);
    line_ += row.lines;
    return behind_line_end(p);
}

const char* TraceCsvReader::take_cell(std::size_t column, const char* begin, const char* limit, Row& row)
{
    switch (columns_.roles[column]) {
    case Role::moment: {
        const char* end = take_number(column, begin, limit, row.moment_s);
        if (columns_.moments_per_s != 1.0) {
            row.moment_s /= columns_.moments_per_s;
        }
        return end;
    }
    case Role::pressure:
        return take_number(column, begin, limit, row.pressure);
    case Role::ignored:
    case Role::count:
    case Role::instrument_time:
    case Role::note:
        break;
    }
    return take_other(column, begin, limit, row);
}

const char* TraceCsvReader::take_number(std::size_t column, const char* begin, const char* limit, double& value)
{
    const auto result = read_decimal(begin, limit, value);
    if (result.ec == std::errc{} && ends_cell(result.ptr, style_.separator) && style_.decimal == '.' &&
        std::fabs(value) <= kLargestPressure) {
        return result.ptr;
    }
    std::size_t lines = 0;
    const auto cell = cell_at(begin, limit, lines);
    if (cell.end != nullptr) {
        value = slow_number(column, cell.text);
    }
    return cell.end;
}

double TraceCsvReader::slow_number(std::size_t column, std::string_view cell)
{
    if (trimmed(cell).empty() && columns_.roles[column] == Role::pressure) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    const auto mark = cell.find_first_of(".,");
    if (style_.decimal == '\0' && mark != std::string_view::npos) {
        style_.decimal = cell[mark];
    }
    const auto value = number_in(cell, style_.decimal);
    if (!value) {
        refuse_number(column, cell);
    }
    if (columns_.roles[column] == Role::pressure && std::fabs(*value) > kLargestPressure) {
        refuse(shown(cell) + " in column " + shown(trimmed(names_[column])),
               "a pressure, or an empty cell with the note overrange or not-a-number");
    }
    if (std::fabs(*value) > kLargestTime_s * columns_.moments_per_s) {
        refuse_number(column, cell);
    }
    return *value;
}

std::int64_t TraceCsvReader::count_of(std::string_view cell) const
{
    if (trimmed(cell).empty()) {
        return -1;
    }
    const auto count = count_in(cell);
    if (!count) {
        refuse(shown(cell) + " in column \"count\"", "a whole number from 0 to " + std::to_string(kLargestCount));
    }
    return *count;
}

const char* TraceCsvReader::take_other(std::size_t column, const char* begin, const char* limit, Row& row)
{
    const auto role = columns_.roles[column];
    if (ends_cell(begin, style_.separator)) {
        return begin;
    }
    if (role == Role::count) {
        const auto plain = std::from_chars(begin, limit, row.count);
        if (plain.ec == std::errc{} && ends_cell(plain.ptr, style_.separator) && row.count >= 0 &&
            row.count <= kLargestCount) {
            return plain.ptr;
        }
    }
    const auto cell = cell_at(begin, limit, row.lines);
    if (cell.end == nullptr) {
        return nullptr;
    }
    if (role == Role::count) {
        row.count = count_of(cell.text);
    } else if (role == Role::instrument_time && !trimmed(cell.text).empty()) {
        row.instrument_time_s = slow_number(column, cell.text) / columns_.instrument_times_per_s;
    } else if (role == Role::note && !cell.text.empty()) {
        if (!is_utf8(cell.text)) {
            refuse("the note " + shown(cell.text) + " is not UTF-8", "UTF-8");
        }
        row.note = cell.text;
    }
    return cell.end;
}

void TraceCsvReader::check_order(double moment_s) const
{
    if (trace_.moment_s.empty()) {
        return;
    }
    const double before = trace_.moment_s.back();
    if (trace_.from_arrivals ? moment_s < before : !(moment_s > before)) {
        refuse("time " + as_text(moment_s) + " s after " + as_text(before) + " s",
               trace_.from_arrivals ? "arrival times that do not run backwards" : "times that strictly increase");
    }
}

void TraceCsvReader::store(Row& row)
{
    check_order(row.moment_s);
    if (std::isnan(row.pressure) && row.note.empty()) {
        refuse("no pressure", "a number, or a note that says why there is none");
    }
    if (trace_.moment_s.size() == kMostRows) {
        refuse("more rows than this program takes", "at most 100 million rows");
    }
    if (!row.note.empty()) {
        trace_.notes.push_back({trace_.moment_s.size(), note_kind_of(row.note), std::move(row.note)});
    }
    trace_.moment_s.push_back(row.moment_s);
    trace_.pressure.push_back(row.pressure);
    if (columns_.has_count) {
        trace_.count.push_back(row.count);
    }
    if (columns_.has_instrument_time) {
        trace_.instrument_time_s.push_back(row.instrument_time_s);
    }
}

/// Sets memory aside for the whole trace by the length of the rows so far: vectors that double would need three times
/// the memory for a moment. Nothing is set aside again, and copied, while what is there holds the rest, or the next
/// block.
void TraceCsvReader::make_room(std::size_t bytes_read)
{
    bytes_taken_ += bytes_read;
    const std::size_t rows = trace_.moment_s.size();
    if (rows == 0) {
        return;
    }
    const double bytes_a_row = static_cast<double>(bytes_taken_) / static_cast<double>(rows);
    const std::size_t left = total_bytes_ > 0 ? total_bytes_ - std::min(total_bytes_, bytes_taken_) : bytes_taken_ / 4;
    const auto rows_in = [&](double bytes) { return static_cast<std::size_t>(bytes / bytes_a_row); };
    const std::size_t needed = rows + rows_in(static_cast<double>(left));
    const std::size_t soon = rows + rows_in(2.0 * static_cast<double>(bytes_read));
    if (std::min(needed, soon) <= trace_.moment_s.capacity()) {
        return;
    }
    const std::size_t expected = needed + needed / 100 + 1;
    grow(trace_.moment_s, expected);
    grow(trace_.pressure, expected);
    if (columns_.has_count) {
        grow(trace_.count, expected);
    }
    if (columns_.has_instrument_time) {
        grow(trace_.instrument_time_s, expected);
    }
}

RawTrace TraceCsvReader::finish(std::string_view rest)
{
    if (rest.find('\n') != std::string_view::npos) {
        refuse("a quote that is never closed", "a closing quote");
    }
    if (!has_header_ && !trimmed(rest).empty() && rest.front() != '#') {
        const std::string whole = std::string(rest) + "\n";
        // Where only a header was written yet, it counts if it is complete.
        if (take_header(whole.data(), whole.data() + whole.size()) == nullptr) {
            refuse("a quote that is never closed", "a closing quote");
        }
        trace_.cut_last_line = true;
    }
    if (!has_header_) {
        refuse(line_ == 1 ? "the file is empty" : "no header row", "a header row such as time_s,pressure_cmH2O");
    }
    trace_.cut_last_line = trace_.cut_last_line || (!trimmed(rest).empty() && rest.front() != '#');
    return std::move(trace_);
}

} // namespace zeroline::trace
